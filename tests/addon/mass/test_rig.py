"""A rig's body is the saved one, otherwise the one that its bones' names give. One that cannot be is refused."""

import bpy
import pytest
from leapwright.addon import registration
from leapwright.addon.mass import settings as body_settings
from leapwright.addon.mass.rig import body_of_rig, sound_body
from leapwright.analysis.errors import SourceError

from tests.addon.scenery import armature, empty
from tests.addon.skeletons import person


def listed(rig, *rows):
    body = body_settings.of_armature(rig.data)
    for bone, segment, mass in rows:
        row = body.bones.add()
        row.bone, row.segment, row.mass = bone, segment, mass
    return rig


def test_names_of_a_whole_body_are_taken_without_a_table(scene):
    found = sound_body(person())
    assert found.known == "16 bones mapped by name, Female (de Leva 1996)"
    assert found.warning == "" and found.body.unmapped == 0.0


def test_names_of_a_creature_are_no_persons(scene, capfd):
    rig = person()
    rig.data.bones["Neck"].name = "tail"
    assert body_of_rig(rig).body.is_sound
    assert body_of_rig(rig).known.endswith("a table of people for what is named like an animal")
    assert sound_body(rig) is None
    bpy.ops.leapwright.map_body()
    assert "Named like an animal, weighed like a person" in capfd.readouterr().out


def test_a_saved_table_wins_over_names(scene):
    rig = listed(person(), ("Hips", "by_hand", 2.0), ("Head", "by_hand", 1.0))
    assert body_of_rig(rig).body.bones == ("Hips", "Head")
    assert body_of_rig(rig).known == "2 bones as mapped, masses of their own"


def test_what_is_missing_is_named(scene):
    rig = listed(armature(), ("chest", "trunk", 0.0))
    warning = body_of_rig(rig).warning
    assert warning.startswith("57 % of the mass has no bone: head, left upper arm, right upper arm")
    assert warning.endswith("and 9 more")


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ([], '"Brindle": no bone has a body segment or a mass: map the bones first'),
        ([("chest", "by_hand", 0.0)], '"Brindle": the masses sum to nothing: give at least one bone a mass'),
        ([("horn", "by_hand", 1.0)], 'has no bone "horn", which is listed in its body: map the bones again'),
    ],
)
def test_what_makes_no_body_is_refused(scene, rows, said):
    rig = armature()
    rig.data.bones["chest"].name = "chest" if rows else "Bone"
    rig.data.bones["root"].name = "Bone"
    with pytest.raises(SourceError, match=said):
        body_of_rig(listed(rig, *rows))
    assert sound_body(rig) is None


def test_an_object_without_bones_has_no_body(scene):
    with pytest.raises(SourceError, match='"Crate" has no bones, so no center of mass: follow an armature'):
        body_of_rig(empty())


def test_a_saved_table_is_read_where_the_add_on_is_off(scene, tmp_path):
    listed(armature(), ("root", "by_hand", 1.0), ("chest", "by_hand", 2.0))
    path = str(tmp_path / "brindle.blend")
    bpy.ops.wm.save_as_mainfile(filepath=path, check_existing=False)
    registration.unregister()
    try:
        bpy.ops.wm.open_mainfile(filepath=path, load_ui=False)
        assert body_settings.of_armature(bpy.data.armatures["Brindle"]) is None
        assert body_of_rig(bpy.data.objects["Brindle"]).body.bones == ("root", "chest")
        assert sound_body(bpy.data.objects["Brindle"]) is not None
    finally:
        registration.register()
