"""Sampling from F-curves equals what Blender itself shows when each frame is set.

The outside reference is the host: `frame_set` and the evaluated matrix, frame by frame.
"""

import math

import bpy
import numpy as np
import pytest

from leapwright.addon import host, sampling
from leapwright.addon.candidates import candidate_named
from leapwright.addon.scene import frame_rate, metres, upright
from leapwright.analysis.errors import SourceError

KEYS = ((1, (0, 0, 0)), (7.5, (0.1, 0.4, -0.3)), (12, (0.2, 1, 0.2)), (20, (0, 2, 1.1)), (30, (0.5, 3, 0)))


def fresh():
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    return bpy.context.scene


def key(target, keys=KEYS, path="location"):
    for frame, value in keys:
        setattr(target, path, value)
        target.keyframe_insert(path, frame=frame)
    return target


def empty(name="Crate", parent=None):
    thing = bpy.data.objects.new(name, None)
    bpy.context.scene.collection.objects.link(thing)
    thing.parent = parent
    return thing


def armature(name="Brindle", connected=False):
    thing = bpy.data.objects.new(name, bpy.data.armatures.new(name))
    bpy.context.scene.collection.objects.link(thing)
    bpy.context.view_layer.objects.active = thing
    bpy.ops.object.mode_set(mode="EDIT")
    root = thing.data.edit_bones.new("root")
    root.head, root.tail, root.roll = (0.1, 0.2, 0.9), (0.3, 0.9, 1.4), 0.4
    chest = thing.data.edit_bones.new("chest")
    chest.head, chest.tail, chest.parent = (0.3, 0.9, 1.4), (0.2, 1.0, 2.4), root
    chest.use_connect = connected
    bpy.ops.object.mode_set(mode="OBJECT")
    return thing


def read_out(thing, bone=None, *, frames):
    """Metres, upright, as the host evaluates them."""
    scene = bpy.context.scene
    rows = []
    for frame in frames:
        scene.frame_set(int(frame))
        shown = thing.evaluated_get(bpy.context.evaluated_depsgraph_get())
        place = shown.matrix_world @ shown.pose.bones[bone].matrix if bone else shown.matrix_world
        rows.append(place.translation[:])
    return np.array(rows) @ upright(scene).T * metres(scene)


def assert_same(thing, bone=None):
    scene = bpy.context.scene
    track = sampling.sample_bone(scene, thing, bone) if bone else sampling.sample_object(scene, thing)
    assert track.notes == ()
    np.testing.assert_allclose(track.positions, read_out(thing, bone, frames=track.frames), atol=1e-5)
    return track


def turn(thing):
    thing.location, thing.rotation_euler, thing.scale = (1, -2, 0.5), (0.3, -0.8, 2.1), (1.5, 0.5, 2)
    return thing


def test_keyed_object_is_read_as_shown():
    fresh()
    track = assert_same(key(empty()))
    assert track.frames[0] == 1 and track.frames[-1] == 30
    assert track.key_frames.tolist() == [1, 7.5, 12, 20, 30]
    assert track.interpolation == "bezier"


def test_object_under_fixed_turned_and_scaled_parents_is_read_as_shown():
    fresh()
    parent = turn(empty("Barge", parent=turn(empty("Quay"))))
    thing = key(empty(parent=parent))
    thing.matrix_parent_inverse = parent.matrix_basis.inverted()
    thing.delta_location = (0.2, 0.1, -0.4)
    assert_same(thing)


def test_keyed_delta_location_is_read_as_shown():
    fresh()
    assert_same(key(turn(empty()), path="delta_location"))


@pytest.mark.parametrize("bone", ["root", "chest"])
def test_bone_of_a_turned_armature_is_read_as_shown(bone):
    fresh()
    rig = turn(armature())
    rig.pose.bones["root"].rotation_quaternion = (0.8, 0.1, -0.3, 0.5)
    rig.pose.bones["root"].scale = (1, 2, 0.7)
    key(rig.pose.bones[bone])
    assert_same(rig, bone)


@pytest.mark.parametrize("inherit", ["FULL", "FIX_SHEAR", "ALIGNED", "AVERAGE", "NONE", "NONE_LEGACY"])
@pytest.mark.parametrize("local", [True, False])
def test_every_kind_of_bone_inheritance_is_read_as_shown(inherit, local):
    fresh()
    rig = armature()
    rig.pose.bones["root"].rotation_quaternion = (0.8, 0.1, -0.3, 0.5)
    rig.pose.bones["root"].scale = (1, 2, 0.7)
    chest = rig.data.bones["chest"]
    chest.inherit_scale, chest.use_local_location, chest.use_inherit_rotation = inherit, local, local
    key(rig.pose.bones["chest"])
    assert_same(rig, "chest")


@pytest.mark.parametrize("relative", [True, False])
def test_object_on_a_posed_bone_is_read_as_shown(relative):
    fresh()
    rig = turn(armature())
    rig.pose.bones["root"].rotation_quaternion = (0.8, 0.1, -0.3, 0.5)
    rig.data.bones["chest"].use_relative_parent = relative
    moss = key(empty("Moss", parent=rig))
    moss.parent_type, moss.parent_bone = "BONE", "chest"
    assert_same(moss)


def test_unit_scale_and_fps_base_are_taken_along():
    scene = fresh()
    scene.unit_settings.scale_length = 0.01
    scene.render.fps, scene.render.fps_base = 24, 1.001
    track = assert_same(key(empty()))
    assert track.fps == pytest.approx(24 / 1.001, rel=1e-6)
    assert track.heights.max() == pytest.approx(0.011, abs=1e-4)


def test_up_is_against_the_scene_gravity():
    scene = fresh()
    scene.gravity = (9.81, 0, 0)
    track = assert_same(key(empty(), [(1, (0, 0, 0)), (10, (-2, 0, 0))]))
    assert track.heights[-1] == pytest.approx(2, abs=1e-6)


def test_time_remapping_moves_the_keys():
    scene = fresh()
    scene.render.frame_map_old, scene.render.frame_map_new = 100, 200
    track = assert_same(key(empty()))
    assert track.key_frames.tolist() == [2, 15, 24, 40, 60]
    assert track.fps == frame_rate(scene)


@pytest.mark.parametrize(
    "strip_settings",
    [{}, {"scale": 1.7}, {"frame_end": 70.25, "frame_start": 41.25}, {"use_reverse": True}, {"blend_type": "ADD"}],
)
def test_an_action_held_by_one_nla_strip_is_read_as_shown(strip_settings):
    fresh()
    thing = key(empty())
    push_down(thing, strip_settings)
    track = assert_same(thing)
    assert track.key_frames is not None and len(track.key_frames) == 5


def push_down(thing, settings=None):
    data = thing.animation_data
    action = data.action
    strip = data.nla_tracks.new().strips.new("hop", 11, action)
    data.action = None
    for name, value in (settings or {}).items():
        setattr(strip, name, value)
    return strip


def test_an_action_over_the_nla_has_the_last_word():
    fresh()
    thing = key(empty())
    push_down(thing)
    key(thing, [(1, (0, 0, 0)), (9, (1, 1, 1)), (20, (2, 2, 0))])
    assert_same(thing)


def test_a_second_strip_is_said_to_be_left_out():
    fresh()
    thing = key(empty())
    strip = push_down(thing)
    thing.animation_data.nla_tracks.new().strips.new("wobble", 60, strip.action)
    track = sampling.sample_object(bpy.context.scene, thing)
    assert track.notes == ('read from the NLA strip "wobble" alone, without "hop"',)


@pytest.mark.parametrize("kind", ["CONSTANT", "LINEAR"])
def test_interpolation_of_all_keys_comes_along(kind):
    fresh()
    thing = key(empty())
    for curve in host.curves_of(thing.animation_data):
        for point in curve.keyframe_points:
            point.interpolation = kind
    track = assert_same(thing)
    assert track.interpolation == kind.lower()


def test_muted_curves_are_not_read():
    fresh()
    thing = key(empty())
    next(c for c in host.curves_of(thing.animation_data) if c.array_index == 2).mute = True
    thing.location.z = 0.25
    track = sampling.sample_object(bpy.context.scene, thing)
    assert np.ptp(track.heights) == 0 and track.heights[0] == pytest.approx(0.25)


def test_what_cannot_be_read_from_curves_is_said():
    fresh()
    parent = key(empty("Barge"))
    thing = key(empty(parent=parent))
    thing.constraints.new("LIMIT_LOCATION")
    thing.driver_add("location", 2)
    notes = sampling.sample_object(bpy.context.scene, thing).notes
    assert notes == (
        "read without the driver of its location Z",
        'read without its constraints: "Limit Location"',
        'read with its parent "Barge" held where it stands: it is animated',
    )


def test_an_animated_parent_bone_and_armature_are_said():
    fresh()
    rig = key(armature())
    key(rig.pose.bones["root"])
    key(rig.pose.bones["chest"])
    assert sampling.sample_bone(bpy.context.scene, rig, "chest").notes == (
        'read with its parent bone "root" held where it stands: it is animated',
        'read with its armature "Brindle" held where it stands: it is animated',
    )


def test_a_thing_without_keys_is_refused():
    fresh()
    with pytest.raises(SourceError, match='"Crate" has no location keys'):
        sampling.sample_object(bpy.context.scene, empty())


def test_two_keys_close_together_are_refused():
    fresh()
    thing = key(empty(), [(1, (0, 0, 0)), (3, (0, 0, 1))])
    with pytest.raises(SourceError, match="keyed over 3 frames only"):
        sampling.sample_object(bpy.context.scene, thing)


def test_a_connected_bone_is_refused():
    fresh()
    rig = armature(connected=True)
    key(rig.pose.bones["chest"])
    with pytest.raises(SourceError, match="connected to its parent"):
        sampling.sample_bone(bpy.context.scene, rig, "chest")


def test_edit_mode_is_refused_for_a_bone_and_works_for_an_object():
    scene = fresh()
    rig = key(armature())
    key(rig.pose.bones["root"])
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    with pytest.raises(SourceError, match="Edit Mode"):
        sampling.sample_bone(scene, rig, "root")
    assert len(sampling.sample_object(scene, rig).frames) == 30
    bpy.ops.object.mode_set(mode="OBJECT")


def test_linked_data_is_read_as_shown(tmp_path):
    fresh()
    rig = turn(armature())
    key(rig.pose.bones["root"])
    path = str(tmp_path / "brindle.blend")
    bpy.data.libraries.write(path, {rig})
    scene = fresh()
    with bpy.data.libraries.load(path, link=True) as (_, wanted):
        wanted.objects = ["Brindle"]
    scene.collection.objects.link(wanted.objects[0])
    assert_same(wanted.objects[0], "root")
    assert candidate_named(scene, "Brindle/root").sample().source == "bone"


def test_sampling_takes_a_fraction_of_stepping_through_the_frames():
    """The full ratio is in the bench; here only that no frame is stepped through."""
    scene = fresh()
    thing = key(empty())
    scene.frame_set(17)
    calls = []
    bpy.app.handlers.frame_change_post.append(lambda *_: calls.append(1))
    try:
        sampling.sample_object(scene, thing)
    finally:
        bpy.app.handlers.frame_change_post.clear()
    assert not calls and scene.frame_current == 17
    assert math.isclose(scene.frame_subframe, 0)
