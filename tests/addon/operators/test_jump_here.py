"""Jump Here marks a doubtful jump as a jump: its takeoff and landing are pinned."""

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.marks import marks

from tests.addon.scenery import empty, hopping


def test_its_takeoff_and_landing_are_pinned_where_they_are(scene):
    bpy.context.view_layer.objects.active = hopping(empty())
    bpy.ops.leapwright.audit_jump()
    before = results.latest(scene).audit.jumps[0]
    assert bpy.ops.leapwright.jump_here() == {"FINISHED"}
    (jump,) = results.latest(scene).audit.jumps
    assert jump.takeoff.pinned and jump.landing.pinned
    assert jump.takeoff.frame == pytest.approx(before.takeoff.frame)
    assert jump.landing.frame == pytest.approx(before.landing.frame)
    (saved,) = marks.of_track(scene, "Crate")[0]
    assert set(saved.pinned) == {"takeoff", "landing"}


def test_without_an_audit_it_says_what_to_do(scene):
    bpy.context.view_layer.objects.active = hopping(empty())
    with pytest.raises(RuntimeError, match="Audit a jump of what is followed first"):
        bpy.ops.leapwright.jump_here()
