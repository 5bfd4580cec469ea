"""Keys in the air are moved onto the arc, however the rig is turned; all other keys keep their values."""

import bpy
import numpy as np
import pytest
from leapwright.addon import host
from leapwright.addon.feet.bones import with_feet
from leapwright.addon.retiming import retiming
from leapwright.addon.sources import SCENE_SOURCES
from leapwright.addon.target import Target
from leapwright.analysis import Settings, World
from leapwright.analysis.errors import RetimeError
from leapwright.analysis.retiming.aim import Aim

from tests.addon.mismatched import FLOATY, opened
from tests.quay.motion import FPS

EXTRA = (31, 44)
"""Poses between takeoff, apex and landing of the floaty vault: 25, 38 and 51."""
BUILT = FLOATY.motion().jumps[0]


def location(rig, axis):
    return next(c for c in host.curves_of(rig.animation_data)
                if c.data_path == 'pose.bones["root"].location' and c.array_index == axis)  # fmt: skip


def blocked(tmp_path, *, stepped=True, turned=False):
    """Return the vault with a pose more on the way up and one on the way down."""
    rig = opened(FLOATY, tmp_path)
    for axis in range(3):
        curve = location(rig, axis)
        for frame in EXTRA:
            curve.keyframe_points.insert(frame, curve.evaluate(frame), options={"FAST"})
        for point in curve.keyframe_points:
            point.interpolation = "CONSTANT" if stepped else "BEZIER"
        curve.update()
    if turned:
        rig.rotation_euler, rig.location, rig.scale = (0.0, 0.0, 0.8), (3.0, -1.0, 0.4), (2.0, 2.0, 2.0)
        bpy.context.scene.unit_settings.scale_length = 0.5
        bpy.context.view_layer.update()
    return rig


def heights_of(rig):
    """Return frames and heights (meters over the takeoff) of the root's keys."""
    points = np.array([point.co[:] for point in location(rig, 1).keyframe_points])
    takeoff = points[np.searchsorted(points[:, 0], 25.0), 1]
    return points[:, 0], points[:, 1] - takeoff


def prepared(rig, **mend):
    target = Target(rig, "root", "bone")
    track = SCENE_SOURCES["bone"].sample(bpy.context.scene, rig, "root")
    settings = Settings(World(gravity=FLOATY.gravity))
    return retiming.prepare(bpy.context.scene, target, track, 0, aim=Aim(**mend), settings=settings)


@pytest.mark.parametrize("turned", [False, True], ids=["upright", "turned and scaled"])
def test_poses_that_whole_frames_displace_go_back_onto_their_path(scene, tmp_path, turned):
    rig = blocked(tmp_path, turned=turned)
    old, before = heights_of(rig)
    # Keeping nothing in real time makes 13 frames of rise into 8: 31 would go to 28.69 and goes to 29.
    prepared(rig, keep="nothing").write()
    new, after = heights_of(rig)
    takeoff, apex, up = (float(new[old == frame][0]) for frame in (25, 38, 31))
    assert (takeoff, apex, up) == (25.0, 33.0, 29.0)
    on_arc = BUILT.jump_height * (1.0 - ((apex - up) / (apex - takeoff)) ** 2)
    assert after[new == up] == pytest.approx(on_arc, abs=1e-3)
    assert before[old == 31] != pytest.approx(on_arc, abs=5e-3)
    others = ~np.isin(old, EXTRA)
    np.testing.assert_array_equal(after[others], before[others])


def test_feet_that_are_read_too_keep_no_key_from_its_path(scene, tmp_path):
    rig = blocked(tmp_path)
    plain = prepared(rig, keep="nothing")
    rig.leapwright_feet.reading = "on"
    track = with_feet(bpy.context.scene, rig, SCENE_SOURCES["bone"].sample(bpy.context.scene, rig, "root"))
    settings = Settings(World(gravity=FLOATY.gravity))
    target, aim = Target(rig, "root", "bone"), Aim(keep="nothing")
    shod = retiming.prepare(bpy.context.scene, target, track, 0, aim=aim, settings=settings)
    np.testing.assert_array_equal(shod.values, plain.values)


def test_with_nothing_laid_every_value_stays(scene, tmp_path):
    rig = blocked(tmp_path)
    old, before = heights_of(rig)
    prepared(rig, keep="nothing", lay="none").write()
    new, after = heights_of(rig)
    assert not np.array_equal(new, old)
    np.testing.assert_array_equal(after, before)


def test_all_keys_in_the_air_can_be_laid_on_the_fitted_parabola(scene, tmp_path):
    rig = blocked(tmp_path, stepped=False)
    curve = location(rig, 1)
    number = next(n for n, point in enumerate(curve.keyframe_points) if point.co.x == 31)
    curve.keyframe_points[number].co_ui.y += 0.02
    curve.update()
    count = len(curve.keyframe_points)
    plan = prepared(rig, keep="flight", hold="crouch", lay="all")
    plan.write()
    new, after = heights_of(rig)
    u = (new - 29.0) / (55.0 - 29.0)
    inside = (u > 0.0) & (u < 1.0)
    fitted = plan.forecast.before.flight.gravity.value * (26 / FPS) ** 2 / 2.0
    start, end = after[new == 29.0], after[new == 55.0]
    np.testing.assert_allclose(after[inside], (start + (end - start) * u + fitted * u * (1.0 - u))[inside], atol=0.02)
    assert inside.sum() == 3 and len(location(rig, 1).keyframe_points) == count


def test_keys_that_do_not_place_the_track_alone_are_not_laid(scene, tmp_path):
    rig = blocked(tmp_path)
    lifted = rig.pose.bones["root"].constraints.new("COPY_LOCATION")
    lifted.target, lifted.use_offset, lifted.influence = bpy.context.scene.camera, True, 0.0
    rig.pose.bones["root"].constraints.new("LIMIT_LOCATION")
    with pytest.raises(RetimeError, match="is not placed by its location keys alone"):
        prepared(rig, keep="nothing", lay="all")
    plan = prepared(rig, keep="nothing")
    np.testing.assert_array_equal(plan.values[:, :, 1], plan.table.values[:, :, 1])
