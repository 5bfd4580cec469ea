"""A body's poses are the keys of all its bones. Their interpolation is told where all keys have the same."""

import bpy
import pytest
from leapwright.addon import host
from leapwright.addon.mass.keyed_frames import transform_keys

from tests.addon.scenery import armature, empty, key

TURNS = [(3, (1, 0, 0, 0)), (12, (0.6, 0.2, -0.5, 0.3)), (40, (1, 0, 0, 0))]


def joined(rig, kind):
    for curve in host.curves_of(rig.animation_data):
        for point in curve.keyframe_points:
            point.interpolation = kind
        curve.update()


@pytest.mark.parametrize(
    ("kind", "said"), [("CONSTANT", "constant"), ("LINEAR", "linear"), ("BEZIER", "bezier"), ("BOUNCE", "bezier")]
)
def test_keys_of_every_bone_are_poses(scene, kind, said):
    rig = key(armature())
    key(rig.pose.bones["chest"], TURNS, "rotation_quaternion")
    joined(rig, kind)
    frames, interpolation = transform_keys(rig)
    assert list(frames) == [1, 3, 7.5, 12, 20, 30, 40]
    assert interpolation == said


def test_keys_that_move_nothing_are_no_poses(scene):
    rig = key(armature())
    key(rig.pose.bones["chest"], [(5, (1, 0, 0, 0)), (50, (1, 0, 0, 0))], "rotation_quaternion")
    assert list(transform_keys(rig)[0]) == [1, 7.5, 12, 20, 30]


def test_without_keys_of_its_own_nothing_is_known(scene):
    assert transform_keys(armature()) == (None, None)
    still = empty()
    still.animation_data_create()
    assert transform_keys(still) == (None, None)


def test_with_nla_strips_nothing_is_known(scene):
    rig = key(armature())
    data = rig.animation_data
    data.nla_tracks.new().strips.new("walk", 1, data.action)
    assert bpy.data.objects["Brindle"].animation_data.use_nla
    assert transform_keys(rig) == (None, None)
