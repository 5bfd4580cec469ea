"""Each call chooses the next jump and sets the frame to its takeoff."""

import bpy
import pytest
from leapwright.addon import results

from tests.addon.mismatched import BY_NAME, opened


def test_jumps_are_gone_through_in_turn_and_around(scene, tmp_path):
    opened(BY_NAME["tq090"], tmp_path)
    bpy.ops.leapwright.audit_jump()
    rows, now = bpy.context.window_manager.leapwright, bpy.context.scene
    jumps = results.latest(now).audit.jumps
    seen = []
    for step in (1, 1, 1, -1):
        bpy.ops.leapwright.choose_jump(step=step)
        seen.append(rows.chosen)
        assert now.frame_current == round(jumps[rows.chosen].takeoff.frame)
    assert seen == [1, 2, 0, 2]


def test_before_an_audit_it_says_what_to_do(scene):
    with pytest.raises(RuntimeError, match="Audit a jump first"):
        bpy.ops.leapwright.choose_jump()
