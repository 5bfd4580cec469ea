"""A rig's bones are mapped to segments by name, by mesh or by hand; the mapping is kept with the armature, one undo
step each."""

import bpy
import pytest
from leapwright.addon.mass.rig import body_of_rig, sound_body
from leapwright.addon.mass.settings import of_armature
from leapwright.analysis.mass.segments import SEGMENTS

from tests.addon.scenery import armature, empty
from tests.addon.skeletons import person
from tests.addon.skeletons import rig as plain_rig


def table(rig):
    return [(row.bone, row.segment) for row in of_armature(rig.data).bones]


def test_bones_named_like_a_body_are_listed_with_their_segments(scene):
    rig = person()
    assert bpy.ops.leapwright.map_body() == {"FINISHED"}
    listed = dict(table(rig))
    assert set(listed.values()) == set(SEGMENTS)
    assert listed["LeftForeArm"] == "forearm_left" and listed["Neck"] == listed["Head"] == "head"
    assert body_of_rig(rig).known == "16 bones as mapped, Female (de Leva 1996)"


def test_the_table_is_corrected_and_saved_with_the_armature(scene, tmp_path):
    rig = person()
    bpy.ops.leapwright.map_body()
    body = of_armature(rig.data)
    body.table = "winter"
    body.bones[0].segment, body.bones[0].mass, body.bones[0].along = "by_hand", 7.5, 0.25
    body.bones[0].aside = (0.5, -0.25)
    path = str(tmp_path / "person.blend")
    bpy.ops.wm.save_as_mainfile(filepath=path, check_existing=False)
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    bpy.ops.wm.open_mainfile(filepath=path, load_ui=False)
    body = of_armature(bpy.data.objects["Harbourer"].data)
    row = body.bones[0]
    assert (body.table, len(body.bones)) == ("winter", 16)
    assert (row.bone, row.segment, row.mass) == ("Hips", "by_hand", 7.5)
    assert (row.along, *row.aside) == (0.25, 0.5, -0.25)


def test_much_mass_without_a_bone_is_warned_of_and_not_taken_unasked(scene, capfd):
    rig = person()
    assert sound_body(rig) is not None
    for side in ("Left", "Right"):
        rig.data.bones[f"{side}Arm"].name = f"{side} sleeve"
    assert bpy.ops.leapwright.map_body() == {"FINISHED"}
    assert "Warning: 5 % of the mass has no bone: left upper arm, right upper arm" in capfd.readouterr().out
    assert sound_body(rig) is None


def test_a_linked_armature_is_read_as_it_was_mapped_and_not_to_be_changed(scene, tmp_path):
    rig = person()
    bpy.ops.leapwright.map_body()
    of_armature(rig.data).table = "male"
    path = str(tmp_path / "person.blend")
    bpy.data.libraries.write(path, {rig})
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    with bpy.data.libraries.load(path, link=True) as (_, wanted):
        wanted.objects = ["Harbourer"]
    (linked,) = wanted.objects
    bpy.context.scene.collection.objects.link(linked)
    bpy.context.view_layer.objects.active = linked
    assert body_of_rig(linked).known == "16 bones as mapped, Male (de Leva 1996)"
    with pytest.raises(RuntimeError, match="is linked: make it local"):
        bpy.ops.leapwright.map_body()


def test_rows_are_added_for_the_active_bone_and_removed(scene):
    rig = armature()
    rig.data.bones.active = rig.data.bones["chest"]
    for _ in range(2):
        bpy.ops.leapwright.add_body_bone()
    assert table(rig) == [("chest", "by_hand"), ("", "by_hand")]
    assert bpy.ops.leapwright.remove_body_bone(row=1) == {"FINISHED"}
    assert bpy.ops.leapwright.remove_body_bone(row=5) == {"CANCELLED"}
    assert table(rig) == [("chest", "by_hand")] and of_armature(rig.data).chosen == 0


def test_each_operator_is_one_undo_step(scene):
    rig = person()
    bpy.ops.ed.undo_push(message="built")
    bpy.ops.leapwright.map_body("EXEC_DEFAULT", True)
    assert len(table(rig)) == 16
    bpy.ops.ed.undo()
    assert table(bpy.data.objects["Harbourer"]) == []


def test_names_that_tell_nothing_are_a_warning(scene, capfd):
    plain_rig("Crane", (("Bone", None), ("Bone.001", "Bone")))
    assert bpy.ops.leapwright.map_body() == {"CANCELLED"}
    assert 'No bone of "Crane" is named like a part of a body: add bones by hand' in capfd.readouterr().out


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda rig, _body: None, 'no mesh is bound to "Crane"'),
        (lambda rig, body: body.modifiers.new("Crane", "ARMATURE").__setattr__("object", rig), "enclose no volume"),
        (
            lambda rig, body: (
                body.modifiers.new("Crane", "ARMATURE").__setattr__("object", rig),
                body.modifiers.new("Half", "MIRROR"),
            ),
            '"Skin" is mirrored by a modifier: apply "Half" first',
        ),
    ],
)
def test_a_mesh_that_cannot_be_weighed_says_why(scene, capfd, change, said):
    rig = plain_rig("Crane", (("boom", None),))
    skin = bpy.data.objects.new("Skin", bpy.data.meshes.new("Skin"))
    scene.collection.objects.link(skin)
    skin.data.from_pydata([(0, 0, 0), (1, 0, 0), (0, 1, 0)], [], [(0, 1, 2)])
    change(rig, skin)
    assert bpy.ops.leapwright.weigh_body() == {"CANCELLED"}
    assert said[1:] in capfd.readouterr().out


def test_a_mesh_on_a_bone_is_weighed_at_rest(scene):
    """Add a block of 2 x 1 x 1 m on a bone's tail: 2 m³ of water weigh 2000 kg, and its center is the middle of the
    block."""
    rig = plain_rig("Crane", (("boom", None),))
    block = bpy.data.objects.new("Block", bpy.data.meshes.new("Block"))
    scene.collection.objects.link(block)
    corners = [(x, y, z) for x in (-1, 1) for y in (0, 1) for z in (0, 1)]
    faces = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    block.data.from_pydata(corners, [], faces)
    block.parent, block.parent_type, block.parent_bone = rig, "BONE", "boom"
    rig.pose.bones["boom"].rotation_quaternion = (0.7, 0.7, 0.0, 0.0)
    bpy.ops.leapwright.weigh_body()
    (row,) = of_armature(rig.data).bones
    assert row.mass == pytest.approx(2000.0)
    assert (row.along, *row.aside) == pytest.approx((1.5, 0.0, 0.5))


@pytest.mark.parametrize("verb", ["map_body", "weigh_body", "add_body_bone", "remove_body_bone", "show_center_of_mass"])
def test_without_an_armature_the_buttons_say_what_to_follow(scene, verb):
    bpy.context.view_layer.objects.active = empty()
    with pytest.raises(RuntimeError, match="Follow an armature, or a bone of one"):
        getattr(bpy.ops.leapwright, verb)()


def test_the_followed_armature_is_meant_not_the_active_object(scene):
    rig = person()
    bpy.context.view_layer.objects.active = empty()
    scene.leapwright.follow, scene.leapwright.thing = "center_of_mass", rig
    bpy.ops.leapwright.map_body()
    assert len(table(rig)) == 16
