"""The ground under the feet: rays cast down onto a mesh as Blender evaluates it, frame by frame."""

import math

import bpy
import numpy as np
import pytest
from leapwright.addon.feet.ground import NO_GROUND_DEPTH, ground_under
from leapwright.analysis import SourceError

from tests.addon.scenery import empty, key
from tests.addon.walker import floor

FRAMES = np.arange(1, 6)


def points(x=0.0, z=1.0):
    return np.tile([[[x, 0.0, z]]], (len(FRAMES), 1, 1))


def test_a_slope_gives_its_height_under_each_point(scene):
    deck = floor(0.5)
    deck.rotation_euler = (0.0, -math.radians(30.0), 0.0)
    heights = ground_under(scene, deck, points(0.4), FRAMES, above=0.5)
    # 0.5 up along the slope's own normal, tan 30° along x: 0.5 / cos 30° + 0.4 tan 30°.
    assert heights == pytest.approx(0.5 / math.cos(math.radians(30)) + 0.4 * math.tan(math.radians(30)), abs=1e-5)


def test_a_deck_that_moves_is_asked_every_frame(scene):
    deck = floor(0.0)
    key(deck, [(1, (0, 0, 0.0)), (5, (0, 0, 0.4))])
    heights = ground_under(scene, deck, points(), FRAMES, above=0.5)[:, 0]
    assert heights[0] == pytest.approx(0.0, abs=1e-5) and heights[-1] == pytest.approx(0.4, abs=1e-5)
    assert (np.diff(heights) > 0.0).all()


def test_modifiers_count(scene):
    deck = floor(0.0)
    deck.modifiers.new("Thick", "SOLIDIFY").thickness = -0.2
    assert ground_under(scene, deck, points(), FRAMES, above=0.5) == pytest.approx(0.2, abs=1e-5)


def test_a_sunk_point_finds_the_deck_over_it_a_roof_is_out_of_reach(scene):
    deck = floor(0.0)
    assert ground_under(scene, deck, points(z=-0.2), FRAMES, above=0.5) == pytest.approx(0.0, abs=1e-6)
    with pytest.raises(SourceError, match="never over"):
        ground_under(scene, deck, points(z=-0.7), FRAMES, above=0.5)


def test_beside_the_mesh_there_is_nothing(scene):
    deck = floor(0.0, size=1.0)
    mixed = points()
    mixed[3:, 0, 0] = 4.0
    heights = ground_under(scene, deck, mixed, FRAMES, above=0.5)[:, 0]
    assert heights[:3] == pytest.approx(0.0, abs=1e-6)
    assert heights[3:] == pytest.approx(1.0 - NO_GROUND_DEPTH)


def test_units_and_gravity_of_the_scene_are_kept(scene):
    deck = floor(30.0, size=500.0)
    scene.unit_settings.scale_length = 0.01
    assert ground_under(scene, deck, points(), FRAMES, above=0.5) == pytest.approx(0.3, abs=1e-5)
    scene.gravity = (0.0, 0.0, 9.81)
    # Down is up: the deck hangs at -0.3 m.
    assert ground_under(scene, deck, points(), FRAMES, above=0.5) == pytest.approx(-0.3, abs=1e-5)


def test_the_user_s_scene_is_left_as_it_was(scene):
    deck = floor(0.0)
    scene.frame_set(7)
    before = set(bpy.data.scenes), set(bpy.data.objects)
    ground_under(scene, deck, points(), FRAMES, above=0.5)
    assert (set(bpy.data.scenes), set(bpy.data.objects)) == before
    assert scene.frame_current == 7


def test_an_empty_is_no_ground(scene):
    with pytest.raises(SourceError, match='"Crate" has no faces to land on: choose a mesh'):
        ground_under(scene, empty("Crate"), points(), FRAMES, above=0.5)
