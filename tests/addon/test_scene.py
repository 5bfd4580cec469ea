"""A scene gives the world of its jumps: gravity, units and frame rate."""

import numpy as np
import pytest
from leapwright.addon import scene as world_of
from leapwright.analysis.errors import SettingsError


def test_the_rate_is_fps_over_its_base(scene):
    scene.render.fps, scene.render.fps_base = 30, 1.001
    assert world_of.frame_rate(scene) == pytest.approx(30 / 1.001, rel=1e-6)


def test_gravity_is_in_meters_whatever_the_unit(scene):
    scene.unit_settings.scale_length = 0.01
    assert world_of.scene_gravity(scene) == pytest.approx(9.81, abs=1e-12)


@pytest.mark.parametrize("pull", [(0, 0, -9.81), (0, 0, 9.81), (9.81, 0, 0), (1, -2, 3), (1e-9, 0, -9.81)])
def test_upright_turns_gravity_down_without_stretching(scene, pull):
    scene.gravity = pull
    turn = world_of.upright(scene)
    np.testing.assert_allclose(turn @ turn.T, np.eye(3), atol=1e-12)
    assert np.linalg.det(turn) == pytest.approx(1)
    down = turn @ np.array(scene.gravity)
    np.testing.assert_allclose(down / np.linalg.norm(down), (0, 0, -1), atol=1e-7)


def test_no_gravity_leaves_the_scene_as_it_stands(scene):
    scene.gravity = (0, 0, 0)
    np.testing.assert_array_equal(world_of.upright(scene), np.eye(3))
    with pytest.raises(SettingsError, match="choose a world"):
        world_of.settings_of(scene)
    scene.leapwright.gravity = "moon"
    assert world_of.settings_of(scene).world.gravity == 1.62


def test_gravity_is_as_strong_in_any_direction(scene):
    scene.gravity = (3.0, 0.0, -4.0)
    assert world_of.scene_gravity(scene) == pytest.approx(5.0)


def test_keys_are_read_as_many_frames_on_as_the_remapping_says(scene):
    # 100 old frames take 200 new ones: frame 50 of the scene reads keys at 25.
    scene.render.frame_map_old, scene.render.frame_map_new = 100, 200
    assert world_of.key_time(scene) == pytest.approx(0.5)


def test_what_is_typed_in_units_of_the_scene_is_told_in_meters(scene):
    scene.unit_settings.scale_length = 0.01
    scene.leapwright.gravity, scene.leapwright.gravity_custom = "custom", 162.0
    scene.leapwright.use_smallest_hop, scene.leapwright.smallest_hop = True, 8.0
    told = world_of.settings_of(scene)
    assert told.world.gravity == pytest.approx(1.62)
    assert told.limits.smallest_hop == pytest.approx(0.08)
