"""Every operator of the sidebar is in the menus too, so that Blender's search finds it."""

from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon import menus

from tests.addon.sheet import Sheet


class MenuSheet(Sheet):
    """A layout that notes menus."""

    def separator(self):
        pass

    def menu(self, name):
        self.texts.append(name)

    def operator_menu_enum(self, name, _property, text):
        self.operator(name, text)


def test_the_menu_has_each_operator_and_switch(scene):
    sheet = MenuSheet()
    menus.LEAPWRIGHT_MT_jumps.draw(SimpleNamespace(layout=sheet), bpy.context)
    assert [button.name for button in sheet.buttons] == [
        *menus.OPERATORS, "leapwright.pin_event", "leapwright.review_shots", *menus.SWITCHES, "leapwright.open_manual"
    ]  # fmt: skip
    assert sheet.buttons[-2].text == "Toggle Events"


def test_each_place_exists_in_this_blender_and_draws_the_menu(scene):
    for name in menus.MENUS:
        assert hasattr(bpy.types, name), name
    sheet = MenuSheet()
    menus._draw(SimpleNamespace(layout=sheet), bpy.context)
    assert sheet.texts == ["LEAPWRIGHT_MT_jumps"]


@pytest.mark.parametrize("name", menus.MENUS)
def test_a_place_has_it_once(scene, name):
    drawn = getattr(bpy.types, name).draw._draw_funcs
    assert drawn.count(menus._draw) == 1
