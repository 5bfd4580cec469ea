"""Stick figures lie where Blender has the bones, at the events of the jump, seen from the side."""

import bpy
import numpy as np
import pytest
from leapwright.addon.shots.poses import drawn_bones, rig_poses
from leapwright.addon.shots.shot import audit_file
from leapwright.analysis import Settings
from leapwright.analysis.day import DayRequest
from leapwright.analysis.report.data import shot_data
from leapwright.analysis.report.stick_plot import stick_plot
from leapwright.analysis.shot import Extras

from tests.quay.build import build
from tests.quay.shots import SHOTS

HOP = next(shot for shot in SHOTS if shot.name == "tq060_long_leap")


@pytest.fixture
def leap(tmp_path):
    path = build(HOP, tmp_path)
    return path, audit_file(path, DayRequest(Settings(), extras=Extras(poses=True)))


def test_every_jump_has_the_four_poses_at_whole_frames(leap):
    _, shot = leap
    ((poses,),) = shot.poses
    jump = shot.audits[0].jumps[0]
    assert [(pose.event, pose.frame) for pose in poses] == [
        (name, round(getattr(jump, name).frame)) for name in ("crouch", "takeoff", "apex", "landing")
    ]


def test_a_figure_has_blenders_own_joints_and_the_travel_to_the_right(leap):
    _, shot = leap
    rig, scene = bpy.data.objects["Brindle"], bpy.context.scene
    apex = shot.poses[0][0][2]
    scene.frame_set(apex.frame)  # the host's own evaluation is the truth here
    track, jump = shot.tracks[0], shot.audits[0].jumps[0]
    at = [np.searchsorted(track.frames, event.frame) for event in (jump.takeoff, jump.landing)]
    way = (track.positions[at[1]] - track.positions[at[0]]) * (1, 1, 0)
    bones = [rig.pose.bones[bone.name] for bone in drawn_bones(rig)]
    ends = np.array([[rig.matrix_world @ bone.head, rig.matrix_world @ bone.tail] for bone in bones])
    across = ends @ (way / np.hypot(*way[:2]))
    drawn = np.array([pair for line in apex.lines for pair in zip(line[::2], line[1::2], strict=True)])
    for point, up in zip((across - across.mean()).ravel(), ends[..., 2].ravel(), strict=True):
        assert np.hypot(*(drawn - (point, up)).T).min() < 0.01  # stored to a centimeter


def test_reading_poses_moves_nothing_and_takes_half_a_kilobyte_each(leap):
    _, shot = leap
    rig, scene = bpy.data.objects["Brindle"], bpy.context.scene
    before = scene.frame_current, len(bpy.data.scenes), len(bpy.data.objects)
    poses = rig_poses(scene, rig, shot.tracks[0], shot.audits[0])
    assert poses == shot.poses[0] and before == (scene.frame_current, len(bpy.data.scenes), len(bpy.data.objects))
    data = shot_data(shot)["tracks"][0]["jumps"][0]["poses"]
    assert len(stick_plot(data, title="leap")) / 4 < 520


def test_a_shot_is_read_without_poses_unless_they_are_asked_for(leap):
    path, _ = leap
    assert audit_file(path, DayRequest(Settings())).poses == ()
