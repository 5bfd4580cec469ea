"""Where the path alone leaves a jump or a contact unsure, the feet are read by themselves for those frames; a note says
so."""

from dataclasses import replace

import bpy
import numpy as np
import pytest
from leapwright.addon import results
from leapwright.addon.feet import asking
from leapwright.addon.feet.settings import of_rig
from leapwright.addon.host import curves_of
from leapwright.addon.shots.candidates import candidate_named
from leapwright.analysis import SourceError, Track, audit_track
from leapwright.analysis.doubt import is_unsure

from tests.addon.scenery import empty, hopping
from tests.addon.walker import walker


def rooted(scene: bpy.types.Scene) -> Track:
    """Return the root's track as its keys have it, without feet."""
    return candidate_named(scene, "Brindle/root").sample(feet="off")


def swaying(scene: bpy.types.Scene) -> Track:
    """Return the same track with a sway of 3 cm, three times a second: in it the path alone shows no flight."""
    track = rooted(scene)
    sway = 0.03 * np.sin(2 * np.pi * 3 * track.frames / track.fps)
    return replace(track, positions=track.positions + np.stack((0 * sway, 0 * sway, sway), axis=1))


def test_a_sure_jump_is_left_as_it_is(scene, monkeypatch):
    rig = walker()
    track = rooted(scene)
    monkeypatch.setattr(asking, "unsure_frames", lambda *_: ())
    assert asking.with_asked_feet(scene, rig, track) is track


def test_feet_settle_what_the_path_alone_leaves_unsure(scene):
    rig = walker()
    track = swaying(scene)
    alone = audit_track(track).jumps
    assert not alone or any(map(is_unsure, alone)), "the path alone is sure of it: the trap is not set"
    asked = asking.with_asked_feet(scene, rig, track)
    assert any("unsure" in note and "foot.L, foot.R" in note for note in asked.notes)
    (jump,) = audit_track(asked).jumps
    off = jump.feet.off.value
    assert abs(jump.takeoff.frame - off) < 0.5


def test_only_the_frames_in_doubt_are_read_and_the_note_names_them(scene, monkeypatch):
    rig = walker()
    track = rooted(scene)
    monkeypatch.setattr(asking, "unsure_frames", lambda *_: ((5.0, 20.0), (31.0, 40.0)))
    asked = asking.with_asked_feet(scene, rig, track)
    read = track.frames[~np.isnan(asked.feet[:, 0, 0])]
    assert set(read) == {*range(5, 21), *range(31, 41)}
    assert "read from frame 5 to 20 and from frame 31 to 40" in asked.notes[-1]


@pytest.mark.parametrize(("mode", "known"), [("on", True), ("off", False)])
def test_the_setting_has_the_last_word(scene, mode, known):
    rig = walker()
    of_rig(rig).reading = mode
    assert (asking.with_asked_feet(scene, rig, swaying(scene)).feet is not None) == known
    assert asking.with_asked_feet(scene, rig, swaying(scene), mode="off").feet is None


def test_bones_mapped_as_feet_are_feet(scene):
    rig = walker()
    for bone, name in zip(rig.data.bones, ("hips", "left_end", "right_end"), strict=True):
        bone.name = name
    assert asking.known_feet(rig) == ()
    for name, segment in (("left_end", "foot_left"), ("hips", "trunk")):
        row = rig.data.leapwright_body.bones.add()
        row.bone, row.segment = name, segment
    assert asking.known_feet(rig) == ("left_end",)


def test_a_ground_that_is_not_there_is_said_and_the_audit_goes_on(scene):
    rig = walker()
    of_rig(rig).ground = "mesh"
    asked = asking.with_asked_feet(scene, rig, swaying(scene))
    assert asked.feet is None
    assert asked.notes[-1].startswith("read without feet: choose the mesh")
    with pytest.raises(SourceError, match="choose the mesh"):
        asking.with_asked_feet(scene, rig, swaying(scene), mode="on")


def test_feet_that_hang_from_the_body_say_nothing(scene):
    rig = walker()
    heights = rooted(scene).heights
    for side in ("foot.L", "foot.R"):
        for curve in curves_of(rig.animation_data):
            if side in curve.data_path and curve.array_index == 2:
                for point, height in zip(curve.keyframe_points, heights, strict=True):
                    point.co.y = height - 1.0
                curve.update()
    asked = asking.with_asked_feet(scene, rig, swaying(scene))
    assert asked.feet is None
    assert asked.notes[-1] == "read without feet: they only go up and down with the body"


def test_what_has_no_bones_or_no_feet_is_read_as_ever(scene):
    thing = hopping(empty())
    track = candidate_named(scene, thing.name).sample()
    assert asking.with_asked_feet(scene, thing, track, mode="on") is track


def test_the_panel_audits_with_them_and_says_so(scene, monkeypatch):
    rig = walker()
    bpy.context.view_layer.objects.active = rig
    monkeypatch.setattr(asking, "unsure_frames", lambda audit, track, _: ((track.frames[0], track.frames[-1]),))
    bpy.ops.leapwright.audit_jump()
    result = results.latest(scene)
    assert result.jump(0).feet is not None
    assert any("leaves a jump or a contact unsure" in note for note in result.audit.notes)
