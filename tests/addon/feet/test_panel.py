"""The sub-panel Feet draws the list, the ground, and where the chosen jump's feet leave and touch."""

from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon.feet import panel as feet_panel
from leapwright.addon.feet.settings import of_rig

from tests.addon.scenery import empty, hopping
from tests.addon.sheet import Sheet, even_letters
from tests.addon.walker import walker


@pytest.fixture
def draw(scene, monkeypatch):
    even_letters(monkeypatch)

    def drawn(part):
        names = "scene window_manager preferences mode active_object active_pose_bone"
        known = {name: getattr(bpy.context, name, None) for name in names.split()}
        context = SimpleNamespace(region=SimpleNamespace(width=280), **known)
        sheet = Sheet()
        part.draw(SimpleNamespace(layout=sheet), context)
        return sheet

    return drawn


def test_it_keeps_its_place_and_says_that_only_an_armature_has_feet(draw):
    bpy.context.view_layer.objects.active = hopping(empty())
    assert draw(feet_panel._Feet).texts == [feet_panel.NO_RIG_NO_FEET]
    walker()
    assert feet_panel.NO_RIG_NO_FEET not in draw(feet_panel._Feet).texts


def test_when_the_feet_are_read_stands_on_top(draw):
    walker()
    assert draw(feet_panel._Feet).texts[0] == "reading"


def test_without_a_list_it_says_that_names_decide(draw):
    walker()
    sheet = draw(feet_panel._Feet)
    assert "Bones named like feet are taken" in sheet.texts
    assert [button.name for button in sheet.buttons] == ["leapwright.find_feet", "leapwright.add_foot"]


@pytest.mark.parametrize(
    ("ground", "asked"), [("standing", []), ("height", ["ground_height"]), ("mesh", ["ground_mesh"])]
)
def test_it_asks_for_the_ground_that_is_chosen(draw, ground, asked):
    of_rig(walker()).ground = ground
    texts = draw(feet_panel._Feet).texts
    assert [text for text in texts if text in ("ground_height", "ground_mesh")] == asked


def test_each_bone_of_the_list_can_be_taken_off(draw):
    walker()
    bpy.ops.leapwright.find_feet()
    buttons = draw(feet_panel._Feet).buttons
    assert [button.row for button in buttons if button.name == "leapwright.remove_foot"] == [0, 1]


def test_after_an_audit_it_says_when_the_feet_leave_and_touch(draw):
    of_rig(walker()).reading = "on"
    bpy.ops.leapwright.audit_jump()
    said = " ".join(draw(feet_panel._Feet).texts)
    assert "The feet leave at 2" in said and "the body lands at 3" in said
