"""A warped track is the track that moved keys would draw."""

from dataclasses import replace

import numpy as np
from leapwright.analysis import Marks, audit_track
from leapwright.analysis.retiming.warp import Air, air_of, laid, warp
from leapwright.analysis.time_map import TimeMap

from tests.analysis.keyed_leap import FLOATY, REAL, keyed
from tests.quay.motion import FPS

TRACK = keyed(FLOATY)
SLOWER = TimeMap((19, 25, 38, 51, 59), (19, 29, 42, 55, 63))
FASTER = TimeMap((19, 25, 38, 51, 59), (19, 25, 33, 41, 46))


def test_the_identity_gives_the_track_back():
    assert warp(TRACK, TimeMap((19, 25), (19, 25))) is TRACK


def test_a_shorter_flight_is_the_parabola_of_its_heights_and_its_new_time():
    # The second difference of a parabola is its acceleration over the square of the rate; shortening its
    # time by 8/13 makes it (13/8)² as strong.
    flight = warp(TRACK, FASTER).heights[24:41]
    g = 9.81 * 0.62**2 * (13 / 8) ** 2
    np.testing.assert_allclose(np.diff(flight, 2), -g / FPS**2, rtol=1e-9)


def test_before_the_crouch_nothing_changes_and_the_settling_only_shifts():
    after = warp(TRACK, SLOWER)
    np.testing.assert_allclose(after.positions[:18], TRACK.positions[:18], atol=1e-12)
    np.testing.assert_allclose(after.positions[63:], TRACK.positions[59:], atol=1e-12)
    # Keys up to the crouch at 19 stay, events go where the map says, and the last key, 71, moves by 63 - 59.
    assert after.key_frames.tolist() == [1.0, 8.0, 16.0, 19.0, 29.0, 42.0, 55.0, 63.0, 75.0]


def test_feet_and_marks_by_hand_go_along():
    feet = TRACK.positions[:, None, :] + [[0.1, 0.0, -0.9], [-0.1, 0.0, -0.9]]
    track = replace(TRACK, feet=feet, marks=(Marks(takeoff=25.0, landing=51.0), Marks(no_jump=(2, 19))))
    after = warp(track, SLOWER)
    beside = np.broadcast_to([[0.1, 0.0, -0.9], [-0.1, 0.0, -0.9]], after.feet.shape)
    np.testing.assert_allclose(after.feet - after.positions[:, None], beside, atol=1e-9)
    assert after.marks == (Marks(takeoff=29.0, landing=55.0), Marks(no_jump=(2, 19)))


def test_stepped_poses_are_held_until_the_next():
    held = keyed(FLOATY, held=True)
    after = warp(held, FASTER)
    assert after.key_frames[4:8].tolist() == [25.0, 33.0, 41.0, 46.0]
    assert (after.heights[24:32] == held.heights[24]).all()
    assert (after.heights[32:40] == held.heights[37]).all()


def test_poses_that_whole_frames_displace_are_laid_back_onto_their_path():
    track = keyed(FLOATY, extra=(31.0, 44.0), held=True)
    jump = audit_track(keyed(FLOATY), REAL).jumps[0]
    air = air_of(jump, FASTER, lay="rounded")
    # 31 would go to 28.69 and is put on 29; on the parabola there, and not at its old height.
    after = warp(track, FASTER, air=air)
    path = warp(TRACK, FASTER)
    assert 29.0 in after.key_frames
    np.testing.assert_allclose(after.positions[28], path.positions[28], atol=1e-3)
    np.testing.assert_allclose(laid(TRACK, FASTER, air, np.array([29.0])), path.positions[[28]], atol=1e-9)


def test_all_keys_in_the_air_can_be_laid_on_the_fitted_parabola():
    bent = keyed(FLOATY)
    heights = bent.positions.copy()
    heights[30:34, 2] += 0.05
    bent = replace(bent, positions=heights)
    jump = audit_track(TRACK, REAL).jumps[0]
    after = warp(bent, SLOWER, air=air_of(jump, SLOWER, lay="all"))
    np.testing.assert_allclose(after.positions[29:54], warp(TRACK, SLOWER).positions[29:54], atol=5e-3)


def test_laid_keys_run_from_the_height_of_the_takeoff_to_that_of_the_landing():
    # 4 r u (1 - u) over the line between 1.0 m and 0.6 m.
    air = Air(takeoff=10.0, landing=20.0, start=1.0, end=0.6, rise=0.5)
    np.testing.assert_allclose(air.heights(np.array([10.0, 12.5, 15.0, 20.0])), [1.0, 1.275, 1.3, 0.6], atol=1e-12)
