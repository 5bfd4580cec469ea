"""The switches change what the windows show, and nothing in the file."""

import bpy
import pytest
from leapwright.addon import view


@pytest.mark.parametrize("name, switch", [("live", "use_live"), ("overlay", "show_overlay"), ("events", "show_events")])
def test_a_switch_turns_and_turns_back_and_the_file_stays_as_it_is(scene, name, switch):
    was, before = getattr(view.of_window(), switch), len(scene.keys())
    toggle = getattr(bpy.ops.leapwright, f"toggle_{name}")
    assert toggle() == {"FINISHED"}
    assert getattr(view.of_window(), switch) is not was
    assert toggle() == {"FINISHED"}
    assert getattr(view.of_window(), switch) is was
    assert len(scene.keys()) == before
