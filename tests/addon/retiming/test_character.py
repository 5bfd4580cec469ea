"""What belongs to a character is found whole, and what may not be moved is refused with its reason."""

from pathlib import Path

import bpy
import pytest
from leapwright.addon import host
from leapwright.addon.retiming.character import parts_of
from leapwright.analysis.errors import RetimeError

from tests.addon.key_state import file_state
from tests.addon.scenery import armature, empty, hopping, key


def rig():
    """Return an armature whose object, two bones and data are keyed, with a mesh that wears it and has a shape key."""
    thing = armature()
    hopping(thing.pose.bones["root"])
    key(thing.pose.bones["chest"], [(8, (1.0, 1.0, 1.0)), (20, (1.1, 1.0, 1.0))], "scale")
    thing["mood"] = 0.0
    thing.keyframe_insert('["mood"]', frame=13)
    thing.data.display_type = "STICK"
    mesh = bpy.data.objects.new("Body", bpy.data.meshes.new("Body"))
    bpy.context.scene.collection.objects.link(mesh)
    mesh.modifiers.new("Worn", "ARMATURE").object = thing
    mesh.shape_key_add(name="Basis")
    squash = mesh.shape_key_add(name="squash")
    for frame, value in ((8, 1.0), (13, 0.0)):
        squash.value = value
        squash.keyframe_insert("value", frame=frame)
    return thing


def curve_of(thing, number=0):
    return host.curves_of(thing.animation_data)[number]


def refused(thing, reason):
    before = file_state()
    with pytest.raises(RetimeError, match=reason):
        parts_of(bpy.context.scene, thing)
    assert file_state() == before


def test_every_bone_and_the_object_are_of_the_character(scene):
    (part,) = parts_of(bpy.context.scene, rig())
    paths = {curve.data_path for curve in part.curves}
    assert paths == {'pose.bones["root"].location', 'pose.bones["chest"].scale', '["mood"]'}
    assert part.ahead == 0.0


def test_shape_keys_of_the_meshes_that_wear_the_rig_are_of_it_where_asked(scene):
    thing = rig()
    other = bpy.data.objects.new("Crate", bpy.data.meshes.new("Crate"))
    bpy.context.scene.collection.objects.link(other)
    other.shape_key_add(name="Basis")
    other.shape_key_add(name="dent").keyframe_insert("value", frame=3)
    parts = parts_of(bpy.context.scene, thing, shape_keys=True)
    assert [curve.data_path for curve in parts[1].curves] == ['key_blocks["squash"].value']
    assert len(parts) == 2


def test_a_mesh_has_its_own_shape_keys(scene):
    mesh = bpy.data.objects.new("Moss", bpy.data.meshes.new("Moss"))
    bpy.context.scene.collection.objects.link(mesh)
    hopping(mesh)
    mesh.shape_key_add(name="Basis")
    mesh.shape_key_add(name="croak").keyframe_insert("value", frame=3)
    assert len(parts_of(bpy.context.scene, mesh, shape_keys=True)) == 2


def test_locked_curves_and_groups_are_refused(scene):
    thing = hopping(empty())
    curve_of(thing, 2).lock = True
    refused(thing, r"location\[2\] of Crate is locked")
    curve_of(thing, 2).lock = False
    group = curve_of(thing).group
    if group is None:
        group = thing.animation_data.action.groups.new("Transform")
        curve_of(thing).group = group
    group.lock = True
    refused(thing, "is locked: unlock its channel")


def test_muted_curves_are_refused(scene):
    thing = hopping(empty())
    curve_of(thing, 1).mute = True
    refused(thing, r"location\[1\] of Crate is muted")


def test_baked_and_cyclic_curves_are_refused(scene):
    thing = hopping(empty())
    curve_of(thing).modifiers.new("CYCLES")
    refused(thing, "is cyclic: remove its Cycles modifier")
    thing = hopping(empty("Moss"))
    curve_of(thing).convert_to_samples(1, 45)
    refused(thing, "is baked to samples, without keys")


def test_other_modifiers_are_no_reason_to_refuse(scene):
    thing = hopping(empty())
    curve_of(thing).modifiers.new("NOISE")
    curve_of(thing).modifiers.new("STEPPED")
    assert parts_of(bpy.context.scene, thing)


def test_driven_channels_with_keys_are_refused(scene):
    thing = hopping(empty())
    driver = thing.driver_add("location", 2)
    refused(thing, r"location\[2\] of Crate has a driver")
    driver.mute = True
    assert parts_of(bpy.context.scene, thing)


def test_an_action_that_moves_another_thing_too_is_refused(scene):
    thing, other = hopping(empty()), empty("Moss")
    other.animation_data_create()
    host.play_copy(other.animation_data, thing.animation_data.action, like=thing.animation_data)
    refused(thing, 'also moves "Moss": make it single-user')


def in_the_nla(thing):
    action = thing.animation_data.action
    track = thing.animation_data.nla_tracks.new()
    strip = track.strips.new("Hop", 1, action)
    slot = getattr(thing.animation_data, "action_slot", None)
    if slot is not None:
        strip.action_slot = slot
    thing.animation_data.action = None
    return track, strip


def test_the_nla_is_refused_outside_tweak_mode(scene):
    thing = hopping(empty())
    in_the_nla(thing)
    refused(thing, "plays NLA strips: enter tweak mode")


def test_in_tweak_mode_the_strips_place_is_known(scene):
    thing = hopping(empty())
    track, strip = in_the_nla(thing)
    strip.frame_start, strip.frame_end = 101, 145
    thing.animation_data.nla_tracks.active = track
    track.select = strip.select = True
    thing.animation_data.use_tweak_mode = True
    (part,) = parts_of(bpy.context.scene, thing)
    assert part.ahead == pytest.approx(-100.0)
    thing.animation_data.use_tweak_mode = False
    strip.scale = 2.0
    thing.animation_data.use_tweak_mode = True
    refused(thing, "is scaled, repeated or reversed")


def test_time_remapping_is_refused(scene):
    thing = hopping(empty())
    bpy.context.scene.render.frame_map_new = 50
    refused(thing, "time remapping is on")


def test_a_thing_without_keys_is_refused(scene):
    refused(empty(), "has no keys to move")


def test_linked_and_overridden_things_are_refused(scene, tmp_path: Path):
    hopping(empty())
    path = tmp_path / "library.blend"
    bpy.ops.wm.save_as_mainfile(filepath=str(path), copy=True)
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    with bpy.data.libraries.load(str(path), link=True) as (_, into):
        into.objects = ["Crate"]
    linked = bpy.data.objects["Crate"]
    bpy.context.scene.collection.objects.link(linked)
    refused(linked, "is linked from .*: make a library override")
    own = linked.override_create()
    bpy.context.scene.collection.objects.link(own)
    refused(own, "is linked or read-only: make a local copy")
    host.play_copy(own.animation_data, own.animation_data.action.copy(), like=own.animation_data)
    own.override_library.is_system_override = True
    refused(own, "is overridden but not editable")
    own.override_library.is_system_override = False
    assert parts_of(bpy.context.scene, own)
