"""Find Feet, Add Foot, Remove Foot: the list of bones that touch the ground, one undo step each."""

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.feet.settings import of_rig

from tests.addon.scenery import armature, empty
from tests.addon.walker import walker
from tests.analysis.shod import Shoes


def listed(rig):
    return [foot.bone for foot in of_rig(rig).bones]


def test_find_feet_fills_the_list_once(scene):
    rig = walker()
    for _ in range(2):
        assert bpy.ops.leapwright.find_feet() == {"FINISHED"}
    assert listed(rig) == ["foot.L", "foot.R"]
    assert of_rig(rig).reading == "on"


def test_find_feet_changes_nothing_where_no_bone_is_named_like_one(scene):
    rig = armature()
    rig.keyframe_insert("location", frame=1)
    assert bpy.ops.leapwright.find_feet() == {"CANCELLED"}
    assert listed(rig) == [] and of_rig(rig).reading == "auto"


def test_add_takes_the_active_bone_and_remove_a_row(scene):
    rig = walker()
    rig.data.bones.active = rig.data.bones["foot.R"]
    bpy.ops.leapwright.add_foot()
    bpy.ops.leapwright.add_foot()
    assert listed(rig) == ["foot.R", ""]
    bpy.ops.leapwright.remove_foot(row=1)
    assert listed(rig) == ["foot.R"]
    assert bpy.ops.leapwright.remove_foot(row=4) == {"CANCELLED"}


def test_what_has_no_bones_has_no_feet(scene):
    thing = empty()
    thing.keyframe_insert("location", frame=1)
    bpy.context.view_layer.objects.active = thing
    with pytest.raises(RuntimeError, match="Follow an armature, or a bone of one: only those have feet"):
        bpy.ops.leapwright.find_feet()


@pytest.mark.parametrize("verb", ["find_feet", "map_body"])
def test_in_edit_mode_neither_feet_nor_body_can_be_listed(scene, verb):
    bpy.context.view_layer.objects.active = walker()
    bpy.ops.object.mode_set(mode="EDIT")
    with pytest.raises(RuntimeError, match="Leave Edit Mode first"):
        getattr(bpy.ops.leapwright, verb)()


def test_feet_of_a_linked_rig_are_not_to_be_changed(scene, tmp_path):
    path = str(tmp_path / "walker.blend")
    bpy.data.libraries.write(path, {walker()})
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    with bpy.data.libraries.load(path, link=True) as (_, wanted):
        wanted.objects = ["Brindle"]
    bpy.context.scene.collection.objects.link(wanted.objects[0])
    bpy.context.view_layer.objects.active = wanted.objects[0]
    with pytest.raises(RuntimeError, match='"Brindle" is linked: make it local, or a library override'):
        bpy.ops.leapwright.find_feet()


def test_an_audit_reads_the_feet_of_a_sure_jump_only_when_asked(scene):
    rig = walker(Shoes(off=-3.0))
    of_rig(rig).reading = "off"
    bpy.ops.leapwright.audit_jump()
    assert results.latest(scene).jump(0).feet is None
    of_rig(rig).reading = "on"
    bpy.ops.leapwright.audit_jump()
    jump = results.latest(scene).jump(0)
    assert "contact-early" in {finding.code for finding in jump.findings}
    assert "feet: foot.L, foot.R; ground: where they stand" in results.latest(scene).audit.notes


def test_feet_that_are_not_there_are_an_error_not_a_traceback(scene):
    rig = walker()
    of_rig(rig).reading = "on"
    of_rig(rig).bones.add().bone = "tail"
    with pytest.raises(RuntimeError, match='"Brindle" has no bone "tail", which is listed among its feet'):
        bpy.ops.leapwright.audit_jump()
