"""The sub-panel Footage asks for what is chosen."""

from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon import view
from leapwright.addon.footage import panel as footage_panel
from leapwright.addon.footage.settings import of_scene

from tests.addon.sheet import Sheet, even_letters


@pytest.fixture(autouse=True)
def fonts(monkeypatch):
    even_letters(monkeypatch)


def drawn(scene):
    sheet, region = Sheet(), SimpleNamespace(width=280)
    context = SimpleNamespace(scene=scene, region=region, preferences=bpy.context.preferences)
    footage_panel._Footage.draw(SimpleNamespace(layout=sheet), context)
    return sheet.texts


def test_it_shows_while_it_is_chosen_under_setup(scene):
    view.of_window().setup = "follow"
    assert not footage_panel._Footage.poll(bpy.context)
    view.of_window().setup = "footage"
    assert footage_panel._Footage.poll(bpy.context)


def test_it_asks_for_a_clip_first_then_for_the_known_length(scene, tmp_path):
    assert drawn(scene) == ["clip"]
    image = bpy.data.images.new("still", 4, 4)
    image.filepath_raw, image.file_format = str(tmp_path / "still_0001.png"), "PNG"
    image.save()
    said = of_scene(scene)
    said.clip = bpy.data.movieclips.load(image.filepath_raw)
    assert drawn(scene)[:4] == ["clip", "known", "length", "rate"]
    assert "not for training, medical or safety decisions" in " ".join(drawn(scene)[4:])
    said.known = "pixels"
    assert drawn(scene)[:5] == ["clip", "known", "pixels", "length", "rate"]
