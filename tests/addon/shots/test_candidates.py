"""What a scene offers for an audit when nobody has chosen anything in it."""

import bpy
import pytest
from leapwright.addon.shots.candidates import candidate_named, find_candidates
from leapwright.analysis.errors import SourceError

from tests.addon.skeletons import rig, shown

HOP = ((1, 0.0), (6, -0.2), (12, 0.6), (20, 0.0))


def keyed(target: object, hop: tuple = HOP) -> object:
    for frame, height in hop:
        target.location.z = height
        target.keyframe_insert("location", frame=frame)
    return target


def taken(scene: bpy.types.Scene) -> list[tuple[str, str, str]]:
    return [(found.name, found.source, found.reason) for found in find_candidates(scene)]


def test_an_empty_scene_offers_nothing(scene):
    shown()
    rig()
    assert find_candidates(scene) == ()


def test_the_root_most_keyed_bone_of_an_armature_is_taken(scene):
    brindle = rig()
    for bone in ("foot", "hips", "root"):
        keyed(brindle.pose.bones[bone])
    assert taken(scene) == [("Brindle/root", "bone", "root-most keyed bone of Brindle")]
    track = find_candidates(scene)[0].sample()
    assert (track.name, track.source, len(track.frames)) == ("Brindle/root", "bone", 20)


def test_a_root_that_is_keyed_but_never_moves_gives_way_to_the_bone_that_does(scene):
    brindle = rig(bones=(("root", None), ("hips", "root")))
    keyed(brindle.pose.bones["root"], ((1, 0.0), (20, 0.0)))
    keyed(brindle.pose.bones["hips"])
    assert [name for name, _, _ in taken(scene)] == ["Brindle/hips"]


def test_objects_with_a_parent_and_cameras_are_left_out(scene):
    crate = keyed(shown())
    keyed(shown(name="Lid")).parent = crate
    keyed(shown(bpy.data.cameras.new("Eye"), "Eye"))
    assert taken(scene) == [("Crate", "object", "keyed object without a parent")]


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("Brindle/hips", "Brindle/hips"),
        ("bone:hips", "Brindle/hips"),
        ("bone:Brindle/hips", "Brindle/hips"),
        ("hips", "Brindle/hips"),
        ("object:Brindle", "Brindle"),
        ("Brindle", "Brindle"),
    ],
)
def test_a_name_finds_its_object_or_bone(scene, name, found):
    keyed(rig()).pose.bones["hips"].keyframe_insert("location", frame=1)
    assert candidate_named(scene, name).name == found


def test_an_object_with_a_slash_in_its_name_is_found(scene):
    keyed(shown(name="Quay/Crate"))
    assert candidate_named(scene, "Quay/Crate").source == "object"


@pytest.mark.parametrize("name", ["Moss", "bone:Crate", "object:hips", "Brindle/tail"])
def test_an_unknown_name_is_refused_with_what_there_is(scene, name):
    keyed(shown())
    rig()
    with pytest.raises(SourceError, match=r'has no ".*" to audit; it has "Crate"'):
        candidate_named(scene, name)


def test_a_bone_of_two_rigs_must_be_named_with_its_rig(scene):
    rig("Brindle")
    rig("Moss")
    with pytest.raises(SourceError, match='"Brindle/hips", "Moss/hips"'):
        candidate_named(scene, "hips")
    assert candidate_named(scene, "Moss/hips").name == "Moss/hips"


def test_a_candidate_reads_its_object_anew_and_refuses_when_it_is_gone(scene):
    crate = keyed(shown())
    (found,) = find_candidates(scene)
    bpy.data.objects.remove(crate)
    with pytest.raises(SourceError, match="no longer in the file"):
        found.sample()
