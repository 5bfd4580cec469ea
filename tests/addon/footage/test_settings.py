"""What is known of footage is saved with the scene, and becomes a scale in meters."""

import bpy
import pytest
from leapwright.addon.footage import settings as footage_settings
from leapwright.addon.footage.marker import FootageScale
from leapwright.analysis import SourceError


def test_a_length_becomes_meters_in_any_unit(scene):
    said = footage_settings.of_scene(scene)
    said.length, said.first, said.second = 180.0, "foot", "top"
    scene.unit_settings.scale_length = 0.01
    assert footage_settings.scale_of(scene) == FootageScale(pytest.approx(1.8), between=("foot", "top"))
    said.known, said.pixels = "pixels", 250.0
    assert footage_settings.scale_of(scene) == FootageScale(pytest.approx(1.8), pixels=250.0)


def test_without_a_length_it_asks_for_one(scene):
    with pytest.raises(SourceError, match="Type a known length of the footage, under Footage"):
        footage_settings.scale_of(scene)


def test_the_scene_s_rate_can_be_asked_for(scene):
    assert footage_settings.own_rate(scene)
    footage_settings.of_scene(scene).rate = "scene"
    assert not footage_settings.own_rate(scene)


def test_reading_it_leaves_the_running_add_on_alone(scene):
    with footage_settings.readable():
        assert footage_settings.of_scene(scene) is not None
    assert hasattr(bpy.types.Scene, "leapwright_footage")
