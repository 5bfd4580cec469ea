"""The sub-panel "Marks" shows what is pinned, each with the button that clears it."""

from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon.marks import marks
from leapwright.addon.marks import panel as marks_panel
from leapwright.analysis import Marks

from tests.addon.scenery import empty, hopping
from tests.addon.sheet import Sheet, even_letters


class MarkSheet(Sheet):
    """A layout that takes menus of operators too."""

    def part(self, **_settings):
        return MarkSheet(self.texts, self.buttons)

    row = column = box = split = part

    def operator_menu_enum(self, name, property_name, text, icon):
        self.operator(name, text, icon=icon)
        assert property_name in bpy.ops.leapwright.pin_event.get_rna_type().properties


@pytest.fixture
def draw(scene, monkeypatch):
    even_letters(monkeypatch)
    bpy.context.view_layer.objects.active = hopping(empty())

    def drawn():
        sheet, context = MarkSheet(), SimpleNamespace(scene=scene, preferences=bpy.context.preferences)
        context.region = SimpleNamespace(width=280)
        marks_panel._Marks.draw(SimpleNamespace(layout=sheet), context)
        return sheet

    return drawn


def names(sheet):
    return [button.name.partition(".")[2] for button in sheet.buttons]


def test_before_an_audit_an_event_can_be_pinned_and_there_is_no_jump_to_deny(draw):
    assert names(draw()) == ["pin_event"]
    bpy.ops.leapwright.audit_jump()
    assert names(draw()) == ["pin_event", "no_jump_here"]


def test_each_pin_has_its_frame_to_type_and_a_button_that_clears_it(draw, scene):
    marks.put(scene, "Crate", (Marks(takeoff=14, landing=26), Marks(no_jump=(100, 120))))
    bpy.ops.leapwright.audit_jump()
    sheet = draw()
    cleared = [(button.row, button.event) for button in sheet.buttons if button.name.endswith("clear_pins")]
    assert cleared == [(0, "takeoff"), (0, "landing"), (1, "all")]
    assert sheet.texts == ["Takeoff", "takeoff", "Landing", "landing", "No Jump", "first", "last"]


def test_marks_of_other_tracks_are_named_and_can_be_cleared(draw, scene):
    marks.put(scene, "Barrel", (Marks(takeoff=12.5, apex=20), Marks(no_jump=(100, 140))))
    bpy.ops.leapwright.audit_jump()
    sheet = draw()
    assert sheet.texts == ["Barrel: takeoff 12.5, apex 20", "Barrel: no jump 100–140"]
    assert [(button.row, button.event) for button in sheet.buttons[-2:]] == [(0, "all"), (1, "all")]


def test_it_stands_in_every_editor_of_the_panel():
    assert {cls.bl_space_type for cls in marks_panel.CLASSES} == {"VIEW_3D", "DOPESHEET_EDITOR", "GRAPH_EDITOR"}
    assert all(hasattr(bpy.types, cls.bl_parent_id) for cls in marks_panel.CLASSES)
