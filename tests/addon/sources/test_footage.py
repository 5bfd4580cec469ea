"""Footage as a source: the panel follows the marker that is chosen, and asks for what it lacks."""

import bpy
import pytest
from bpy.types import Operator, Panel
from leapwright.addon import operators, registration
from leapwright.addon.footage.settings import of_scene
from leapwright.addon.sources import SCENE_SOURCES

from tests.addon.filmed import POST, film


@pytest.fixture
def clip(scene, tmp_path):
    return film(tmp_path)


def test_the_panel_follows_the_chosen_marker(scene, clip):
    scene.leapwright.follow = "footage"
    with pytest.raises(RuntimeError, match="Choose a movie clip under Footage"):
        bpy.ops.leapwright.audit_jump()
    said = of_scene(scene)
    said.clip = clip
    with pytest.raises(RuntimeError, match="Choose a marker under Footage"):
        bpy.ops.leapwright.audit_jump()
    said.marker = "ball"
    with pytest.raises(RuntimeError, match="Type a known length of the footage"):
        bpy.ops.leapwright.audit_jump()
    said.length, said.first, said.second = POST, "foot", "top"
    assert bpy.ops.leapwright.audit_jump() == {"FINISHED"}
    assert SCENE_SOURCES["footage"].poll(clip, "ball") and not SCENE_SOURCES["footage"].poll(clip, "crate")


def test_no_button_or_panel_trips_over_a_clip(scene, clip):
    scene.leapwright.follow = "footage"
    of_scene(scene).clip, of_scene(scene).marker = clip, "ball"
    for cls in (*operators.CLASSES, *registration.CLASSES):
        if hasattr(cls, "poll") and cls.__name__.startswith("LEAPWRIGHT") and issubclass(cls, (Operator, Panel)):
            assert cls.poll(bpy.context) in (True, False)
