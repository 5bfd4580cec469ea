"""The module `host` alone knows the differences between Blender's releases."""

import ast
import subprocess
import sys

import bpy
import pytest
from leapwright.addon import host, sources
from leapwright.analysis.cache import made_with

from tests.addon.scenery import armature, empty, key
from tests.house import sources as sources_of
from tests.house import tree_of


def test_an_actions_curves_are_found(scene):
    data = key(empty()).animation_data
    assert [curve.array_index for curve in host.curves_of(data)] == [0, 1, 2]


def test_an_object_without_an_action_has_no_curves(scene):
    thing = empty()
    thing.animation_data_create()
    assert host.curves_of(thing.animation_data) == []


def test_only_the_slot_in_use_plays(scene):
    thing, other = key(empty()), empty("Barge")
    other.animation_data_create().action = thing.animation_data.action
    if not hasattr(thing.animation_data.action, "slots"):
        pytest.skip("actions have slots from 4.4 on")
    other.animation_data.action_slot = None
    assert host.curves_of(other.animation_data) == []
    other.animation_data.action_slot = thing.animation_data.action_slot
    assert len(host.curves_of(other.animation_data)) == 3


def test_a_muted_curve_is_silent(scene):
    curve = host.curves_of(key(empty()).animation_data)[0]
    assert not host.is_silent(curve)
    curve.mute = True
    assert host.is_silent(curve)


def test_a_muted_group_is_silent_where_blender_heeds_it(scene):
    """Check against the host, the outside reference: does the object still move?"""
    thing = key(empty())
    for curve in host.curves_of(thing.animation_data):
        curve.group = curve.group or _group(thing)
        curve.group.mute = True
    thing.location.z = 7.0
    scene.frame_set(12)
    assert host.is_silent(host.curves_of(thing.animation_data)[2]) == (thing.location.z == 7.0)


def _group(thing):
    groups = thing.animation_data.action.groups
    return groups.get("Hop") or groups.new("Hop")


def test_clips_come_from_the_top_down_without_the_muted(scene):
    thing = key(empty())
    data = thing.animation_data
    for name in ("low", "middle", "top"):
        data.nla_tracks.new().strips.new(name, 1, data.action)
    data.nla_tracks[1].mute = True
    assert [clip.name for clip in host.clips_of(data)] == ["top", "low"]
    data.nla_tracks[2].strips[0].mute = True
    assert [clip.name for clip in host.clips_of(data)] == ["low"]
    data.nla_tracks[1].is_solo = True
    assert [clip.name for clip in host.clips_of(data)] == ["middle"]


@pytest.mark.parametrize("name", ["hips", 'the "left" foot', "back\\slash", "dock.frog]"])
def test_a_bones_path_gives_its_name_back(scene, name):
    rig = armature()
    rig.pose.bones["root"].name = name
    path = rig.pose.bones[name].path_from_id("location")
    assert host.bone_of_path(path) == (name, "location")


@pytest.mark.parametrize("path", ["location", 'pose.bones["hips"].constraints["Copy"].influence', "pose.bones"])
def test_other_paths_are_no_bones(path):
    assert host.bone_of_path(path) is None


def test_a_scene_keeps_its_key_when_renamed_and_undone(scene):
    before = host.scene_key(scene)
    scene.name = "Tern Quay"
    assert host.scene_key(scene) == before
    assert host.scene_key(bpy.data.scenes.new("Other")) != before


def test_every_icon_is_known_to_this_blender():
    known = bpy.types.UILayout.bl_rna.functions["label"].parameters["icon"].enum_items
    given = (word.value for path in sources_of("addon") for node in ast.walk(tree_of(path))
             if isinstance(node, ast.keyword) and node.arg == "icon" for word in ast.walk(node.value)
             if isinstance(word, ast.Constant) and isinstance(word.value, str))  # fmt: skip
    wanted = {word for word in given if word.isupper()} | {source.icon for source in sources.SCENE_SOURCES.values()}
    assert len(wanted) > 10
    assert wanted <= set(known.keys())


def test_a_blender_is_named_alike_loaded_or_not():
    code = "import sys; from leapwright.analysis.cache import made_with; print(made_with(), 'bpy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == f"{made_with()} False"
    assert f"Blender {'.'.join(map(str, bpy.app.version))}," in made_with()
