"""The sub-panel Footage keeps its place, and asks for what is chosen."""

from types import SimpleNamespace

import bpy
from leapwright.addon.footage import panel as footage_panel
from leapwright.addon.footage.settings import of_scene

from tests.addon.sheet import Sheet


def drawn(scene):
    sheet = Sheet()
    footage_panel._Footage.draw(SimpleNamespace(layout=sheet), SimpleNamespace(scene=scene))
    return sheet.texts


def test_it_keeps_its_place_whatever_is_followed(scene):
    assert footage_panel._Footage.poll(bpy.context)
    scene.leapwright.follow = "footage"
    assert footage_panel._Footage.poll(bpy.context)


def test_it_asks_for_a_clip_first_then_for_the_known_length(scene, tmp_path):
    assert drawn(scene) == ["clip"]
    image = bpy.data.images.new("still", 4, 4)
    image.filepath_raw, image.file_format = str(tmp_path / "still_0001.png"), "PNG"
    image.save()
    said = of_scene(scene)
    said.clip = bpy.data.movieclips.load(image.filepath_raw)
    assert drawn(scene) == ["clip", "known", "length", "rate"]
    said.known = "pixels"
    assert drawn(scene) == ["clip", "known", "pixels", "length", "rate"]
