"""The sub-panel draws the table of segments, the body that it gives, and what is wrong with it."""

from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon.mass import panel as body_panel

from tests.addon.scenery import armature, empty
from tests.addon.sheet import Sheet, even_letters
from tests.addon.skeletons import person


class Page(Sheet):
    """A sheet that takes any list."""

    def part(self, **_settings):
        return Page(self.texts, self.buttons)

    row = column = box = split = part

    def prop(self, data, name, text=None, **_settings):
        super().prop(data, name, text)

    def template_list(self, _name, _id, data, items, active, chosen, /, **_settings):
        assert hasattr(active, chosen)
        self.texts.append(f"list of {len(getattr(data, items))}")


@pytest.fixture
def draw(scene, monkeypatch):
    even_letters(monkeypatch)

    def drawn():
        names = ("scene", "preferences", "mode", "active_object", "window_manager")
        known = {name: getattr(bpy.context, name, None) for name in names}
        context, page = SimpleNamespace(region=SimpleNamespace(width=280), **known), Page()
        body_panel._Body.draw(SimpleNamespace(layout=page), context)
        return " ".join(page.texts), [button.name.removeprefix("leapwright.") for button in page.buttons]

    return drawn


def test_without_a_table_the_panel_says_what_is_taken(draw):
    person()
    texts, buttons = draw()
    assert texts == body_panel.UNMAPPED
    assert buttons == ["map_body", "weigh_body", "add_body_bone", "show_center_of_mass"]


def test_a_table_is_listed_with_what_it_makes(draw):
    person()
    bpy.ops.leapwright.map_body()
    texts, buttons = draw()
    assert "list of 16" in texts and "16 bones as mapped, Female (de Leva 1996)" in texts
    assert "table" in texts and "mass" not in texts.split()
    assert "remove_body_bone" in buttons


def test_missing_mass_and_no_mass_are_said(draw):
    rig = armature()
    bpy.ops.leapwright.add_body_bone()
    row = rig.data.leapwright_body.bones[0]
    row.bone = "chest"
    assert '"Brindle": the masses sum to nothing' in draw()[0]
    row.segment = "trunk"
    assert "57 % of the mass has no bone: head, left upper arm" in draw()[0]


def test_a_mass_by_hand_shows_its_place(draw):
    armature()
    bpy.ops.leapwright.add_body_bone()
    words = draw()[0].split()
    assert {"mass", "along", "aside"} <= set(words) and "table" not in words


def test_there_is_no_table_for_what_has_no_bones(draw):
    bpy.context.view_layer.objects.active = empty()
    assert draw() == (body_panel.NO_RIG_NO_BODY, [])


def test_a_row_shows_its_bone_and_the_mass_that_is_its_own(scene):
    rig = armature()
    bpy.ops.leapwright.add_body_bone()
    body = rig.data.leapwright_body
    body.bones[0].bone, page = "chest", Page()
    body_panel.LEAPWRIGHT_UL_body.draw_item(None, bpy.context, page, body, body.bones[0], 0, body, "chosen")
    assert page.texts == ["chest", "mass"]
