"""The keys of a finding are selected where the person asks for it, and no key is moved."""

import bpy
import pytest
from leapwright.addon import preferences, results
from leapwright.addon.host import curves_of
from leapwright.addon.selection import select_keys
from leapwright.addon.target import Target

from tests.addon.mismatched import FLOATY, opened
from tests.addon.scenery import empty, hopping


def selected(thing):
    return sorted(
        {key.co.x for curve in curves_of(thing.animation_data) for key in curve.keyframe_points
         if key.select_control_point}
    )  # fmt: skip


def places(thing):
    return [key.co[:] for curve in curves_of(thing.animation_data) for key in curve.keyframe_points]


def test_only_the_keys_on_these_frames_are_selected(scene):
    crate = hopping(empty())
    assert select_keys(Target(crate), 13.0, 27.0) == 3 * 3  # frames 13, 20, 27 of three channels
    assert selected(crate) == [13.0, 20.0, 27.0]
    select_keys(Target(crate), 40.0, 50.0)
    assert selected(crate) == [45.0]


def test_of_a_bone_only_those_that_carry_it(scene, tmp_path):
    rig = opened(FLOATY, tmp_path)
    select_keys(Target(rig, "root", "bone"), 25.0, 51.0)
    paths = {
        curve.data_path for curve in curves_of(rig.animation_data) for key in curve.keyframe_points
        if key.select_control_point
    }  # fmt: skip
    assert paths == {'pose.bones["root"].location'}


@pytest.mark.parametrize("asked", [True, False])
def test_going_to_a_finding_selects_its_keys_if_asked(scene, monkeypatch, asked):
    crate = hopping(empty())
    bpy.context.view_layer.objects.active = crate
    bpy.ops.leapwright.audit_jump()
    monkeypatch.setattr(preferences, "of_person", lambda _: preferences.Chosen({}, select_keys=asked))
    select_keys(Target(crate), 1.0, 1.0)
    before = places(crate)
    bpy.ops.leapwright.go_to_finding(jump=0, finding=0)
    first, last = results.latest(scene).audit.jumps[0].findings[0].frames
    assert selected(crate) == ([f for f in (13.0, 20.0, 27.0) if first - 0.5 <= f <= last + 0.5] if asked else [1.0])
    assert places(crate) == before
