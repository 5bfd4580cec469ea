"""Clear Pins removes one pin, one jump's marks or all marks of a track; the events are then found again."""

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.marks import marks
from leapwright.analysis import Marks

from tests.addon.scenery import empty, hopping

PINS = Marks(takeoff=14, landing=26)


@pytest.fixture
def crate(scene):
    bpy.context.view_layer.objects.active = hopping(empty())
    marks.put(scene, "Barrel", (Marks(apex=99),))
    marks.put(scene, "Crate", (PINS, Marks(no_jump=(100, 120))))
    bpy.ops.leapwright.audit_jump()
    assert jump().takeoff.pinned


def jump():
    return results.latest(bpy.context.scene).audit.jumps[0]


def kept(name="Crate"):
    return marks.of_track(bpy.context.scene, name)[0]


def clear(**settings):
    return bpy.ops.leapwright.clear_pins(**settings)


def test_one_pin_goes_and_its_event_is_found_again(crate):
    assert clear(row=1, event="takeoff") == {"FINISHED"}
    assert kept() == (Marks(landing=26), Marks(no_jump=(100, 120)))
    assert not jump().takeoff.pinned and jump().landing.pinned


def test_the_last_pin_of_a_jump_takes_its_row_along(crate):
    clear(row=1, event="takeoff")
    rows = [entry.track for entry in marks.all_of(bpy.context.scene)]
    clear(row=rows.index("Crate"), event="landing")
    assert kept() == (Marks(no_jump=(100, 120)),)


def test_a_stretch_without_a_jump_is_taken_back(crate):
    clear(row=2)
    assert kept() == (PINS,)


def test_all_marks_of_the_followed_track_go_and_those_of_others_stay(crate):
    assert clear() == {"FINISHED"}
    assert kept() == () and kept("Barrel") == (Marks(apex=99),)
    assert not jump().takeoff.pinned


def test_marks_of_another_track_can_be_cleared_and_the_shown_audit_stays(crate):
    shown = results.latest(bpy.context.scene)
    assert clear(row=0) == {"FINISHED"}
    assert kept("Barrel") == ()
    assert results.latest(bpy.context.scene).audit.name == shown.audit.name


def test_it_is_one_undo_step(crate):
    bpy.ops.ed.undo_push(message="before")
    bpy.ops.leapwright.clear_pins("EXEC_DEFAULT", True)
    bpy.ops.ed.undo()
    assert kept() == (PINS, Marks(no_jump=(100, 120)))


@pytest.mark.parametrize("settings", [{"row": 9}, {"row": 1, "event": "apex"}])
def test_what_is_not_pinned_cannot_be_cleared(crate, settings, capfd):
    assert clear(**settings) == {"CANCELLED"}
    assert "There is no such pin" in capfd.readouterr().out
    assert kept()[0] == PINS


def test_the_button_says_that_nothing_is_pinned(scene):
    with pytest.raises(RuntimeError, match="Nothing is pinned in this scene"):
        clear()
