"""A location that may not be keyed is refused with its reason, and no key is set; any other is keyed."""

import bpy
import pytest
from leapwright.addon import host

from tests.addon.plan_fields import JUMP, active, assert_on_the_path, fields, lay, whole
from tests.addon.scenery import armature, empty, key


def _library(scene, tmp_path, *, keyed):
    crate = key(empty()) if keyed else empty()
    bpy.data.libraries.write(str(tmp_path / "lib.blend"), {crate})
    bpy.data.objects.remove(crate)
    with bpy.data.libraries.load(str(tmp_path / "lib.blend"), link=True) as (_, out):
        out.objects = ["Crate"]
    scene.collection.objects.link(out.objects[0])
    return out.objects[0]


def linked(scene, tmp_path):
    return _library(scene, tmp_path, keyed=True)


def overridden_with_a_linked_action(scene, tmp_path):
    return _library(scene, tmp_path, keyed=True).override_create(remap_local_usages=True)


def overridden_by_the_system(scene, tmp_path):
    copy = _library(scene, tmp_path, keyed=False).override_create(remap_local_usages=True)
    copy.override_library.is_system_override = True
    return copy


def locked(scene, _tmp_path):
    crate = empty()
    crate.lock_location[2] = True
    return crate


def _curve(thing):
    return next(c for c in host.curves_of(thing.animation_data) if c.array_index == 2)


def with_a_locked_curve(scene, _tmp_path):
    crate = key(empty(), [(200, (0, 0, 0)), (300, (1, 1, 1))])
    _curve(crate).lock = True
    return crate


def with_a_muted_curve(scene, _tmp_path):
    crate = key(empty(), [(200, (0, 0, 0)), (300, (1, 1, 1))])
    _curve(crate).mute = True
    return crate


def with_a_modifier(scene, _tmp_path):
    crate = key(empty(), [(200, (0, 0, 0)), (300, (1, 1, 1))])
    _curve(crate).modifiers.new("NOISE")
    return crate


def baked(scene, _tmp_path):
    crate = key(empty(), [(200, (0, 0, 0)), (300, (1, 1, 1))])
    _curve(crate).convert_to_samples(200, 300)
    return crate


def driven(scene, _tmp_path):
    crate = empty()
    crate.driver_add("location", 2).driver.expression = "1.0"
    return crate


def under_strips(scene, _tmp_path):
    crate = key(empty())
    data = crate.animation_data
    track = data.nla_tracks.new()
    track.strips.new("hop", 1, data.action)
    data.action = None
    return crate


def with_a_keyed_delta(scene, _tmp_path):
    return key(empty(), path="delta_location")


def keyed_there(scene, _tmp_path):
    return key(empty())


def connected(scene, _tmp_path):
    rig = active(armature(connected=True))
    bpy.ops.object.mode_set(mode="POSE")
    rig.data.bones.active = rig.data.bones["chest"]
    return rig


def in_edit_mode(scene, _tmp_path):
    rig = active(armature())
    scene.leapwright.follow, scene.leapwright.thing, scene.leapwright.bone = "bone", rig, "root"
    bpy.ops.object.mode_set(mode="EDIT")
    return rig


def scaled_to_nothing(scene, _tmp_path):
    barge = empty("Barge")
    barge.scale = (0.0, 0.0, 0.0)
    return empty(parent=barge)


REFUSED = {
    linked: "is linked from another file",
    overridden_with_a_linked_action: "is linked: give",
    overridden_by_the_system: "is not editable",
    locked: 'ocation Z of "Crate" is locked',
    with_a_locked_curve: "has a locked curve",
    with_a_muted_curve: "has a muted curve",
    with_a_modifier: "has curve modifiers",
    baked: "is baked to samples",
    driven: "is driven",
    under_strips: "is moved by NLA strips",
    with_a_keyed_delta: "delta location",
    keyed_there: "turn on Replace Keys",
    connected: "is connected to its parent",
    in_edit_mode: "has no pose in Edit Mode",
    scaled_to_nothing: "scaled to nothing",
}


def test_an_editable_override_is_keyed(scene, tmp_path):
    crate = active(_library(scene, tmp_path, keyed=False).override_create(remap_local_usages=True))
    fields(use_keys=True, **JUMP)
    assert lay() == {"FINISHED"}
    assert_on_the_path(crate)


@pytest.mark.parametrize("made", REFUSED, ids=lambda made: made.__name__)
def test_what_may_not_be_keyed_is_refused_whole(made, scene, tmp_path):
    active(made(scene, tmp_path))
    fields(use_keys=True)
    before = whole(scene)
    with pytest.raises(RuntimeError, match=REFUSED[made]):
        lay()
    assert whole(scene) == before


def test_what_may_not_be_keyed_gets_markers_and_a_guide_where_nobody_asked_for_keys(scene, tmp_path, capfd):
    active(linked(scene, tmp_path))
    fields(**JUMP)
    assert lay() == {"FINISHED"}
    assert scene.timeline_markers and 'no keys: "Crate" is linked from another file' in capfd.readouterr().out
