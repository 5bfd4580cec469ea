"""The poses as a witness: where there are few, they are the events."""

import math

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World
from leapwright.analysis.cases.collect import cases_of
from leapwright.analysis.events.witnesses import posed, rhythm
from leapwright.analysis.samples.poses import poses_of

from tests.analysis.events.heard import only_case
from tests.truth import grounded

KEYS = {1: 1.0, 8: 0.6, 13: 1.0, 20: 1.41, 27: 1.0, 34: 0.7, 45: 1.0}
"""Stand, crouch, takeoff, apex, landing, absorbed, stand."""


def blocked(keys: dict[int, float]) -> Track:
    frames = np.arange(1.0, 46.0)
    z = np.interp(frames, list(keys), list(keys.values()))
    positions = np.stack((0 * z, 0 * z, z), axis=1)
    return Track("Brindle", 24, frames, positions, key_frames=list(keys), interpolation="bezier")


def test_takeoff_and_landing_are_on_their_keys() -> None:
    said = posed.hear(only_case(blocked(KEYS)))
    assert [reading.frame for reading in said.takeoff] == [13] and [reading.frame for reading in said.landing] == [27]
    assert said.seen["posed"] == pytest.approx(math.log2(0.41 / 0.05))


def test_a_breakdown_on_the_way_up_leaves_a_choice() -> None:
    said = posed.hear(only_case(blocked(dict(sorted({**KEYS, 17: 1.33}.items())))))
    assert {reading.frame for reading in said.takeoff} == {13, 17}
    assert sum(reading.trust for reading in said.takeoff) == pytest.approx(posed.TRUST)


def test_a_curve_without_keys_has_no_poses() -> None:
    track = blocked(KEYS)
    assert posed.hear(only_case(Track("Brindle", 24, track.frames, track.positions))) is None


def test_the_poses_of_strides_are_no_jumps() -> None:
    """A walk with keys by eye: one of its steps has the poses of a jump, as any of them could."""
    track = grounded.make("rise to walk", 67).track
    cases = cases_of(track, poses_of(track), None, World(), Limits())
    strides = [case for case in cases if case.posed is not None and rhythm.seen(case)]
    assert strides and not any(posed.seen(case) for case in strides)


def test_it_is_told_how_far_over_the_stand_the_higher_contact_is_keyed() -> None:
    # Stand 1 m and apex 1.41 m for 30 frames before and after: takeoff keyed at 1.05, landing at 1.1 m, so at most
    # 0.1 of 0.41 m; a breakdown at 1.3 m in place of the landing lies 0.3 of 0.41 m up.
    level = {1: 1.0, 31: 1.0, 38: 0.6, 43: 1.05, 50: 1.41}
    for met, share in ((1.1, 0.1 / 0.41), (1.3, 0.3 / 0.41)):
        keys = level | {57: met, 64: 0.7, 75: 1.0, 105: 1.0}
        frames = np.arange(1.0, 106.0)
        z = np.interp(frames, list(keys), list(keys.values()))
        track = Track("Brindle", 24, frames, np.stack((0 * z, 0 * z, z), 1), list(keys), interpolation="bezier")
        assert posed.seen(only_case(track))["keyed over stand"] == pytest.approx(share, abs=1e-6)


def test_without_a_stand_nothing_is_told_of_it() -> None:
    keys = {1: 0.6, 13: 1.0, 20: 1.41, 27: 1.0, 45: 0.6}
    case = only_case(blocked(keys))
    assert case.posed is not None and not case.rising.levels
    assert "keyed over stand" not in posed.seen(case)
