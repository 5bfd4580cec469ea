"""The speed as a witness: a point is fastest about where its body leaves the ground and where it lands."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events.witnesses import speed

from tests.analysis.closed_form import Leap
from tests.analysis.events.heard import only_case
from tests.analysis.shod import shod

G = 9.80665
FPS = 24.0
RISE = 8.0
"""Frames from takeoff to apex in the tracks below: v = g 8/24 = 3.27 m/s, ½ g (8/24)² = 0.54 m."""


def hop(push: float, *, end: float = 60.0) -> Track:
    """Return a body that leaves the ground at frame 30 at v = g 8/24 and lands at 46, each way through `push` frames.

    Under a steady force its speed grows evenly (Newton's second law), so it is fastest at frames 30 and 46.
    """
    f = np.arange(0.0, end)
    t = np.abs(f - 38.0)  # the same before the apex and after it
    v, way = G * RISE / FPS, push / FPS
    air = 1.0 + 0.5 * G * (RISE / FPS) ** 2 - 0.5 * G * (t / FPS) ** 2
    into = np.clip((t - RISE) / FPS, 0.0, way)
    z = np.where(t <= RISE, air, 1.0 - v * into + v * into**2 / (2.0 * way))
    return Track("Brindle", FPS, f, np.stack((0 * z, 0 * z, z), 1))


def bent(track: Track, *, ground: float = 0.0) -> Track:
    """Return the track with its heights over the ground squeezed, so that no parabola is left to tell the contacts.

    ground: meters that it all stands higher, as on a ledge.
    """
    z = track.heights
    squeezed = ground + np.where(z > 1.0, 1.0 + np.maximum(z - 1.0, 0.0) ** 0.9 * 0.5, z)
    return Track(track.name, track.fps, track.frames, np.stack((0 * z, 0 * z, squeezed), 1))


@pytest.mark.parametrize("push", [4.0, 8.0])
def test_a_steady_push_is_fastest_where_it_ends(push: float) -> None:
    case = only_case(bent(hop(push), ground=0.5))
    said = speed.hear(case)
    for readings, frame in ((said.takeoff, 30.0), (said.landing, 46.0)):
        (reading,) = readings
        assert abs(reading.frame - frame) <= 2 * reading.error
        # At least 0.15 of the 8 frames to the apex; no more than half of where it moves nearly as fast.
        assert 0.15 * 0.75 * RISE <= reading.error <= 0.5 * RISE
        # The track begins and ends at the bottom: the body may stand there, and need no crouch.
        assert reading.trust == pytest.approx((1 - case.rising.popped_share) * 0.9)
    assert said.nats == 0.0


def test_a_bottom_that_is_passed_is_no_stand() -> None:
    # It sinks until the push begins at frame 22, and rises once it has absorbed at 54: it is held at neither bottom.
    track = bent(hop(8.0))
    sinking = 0.05 * np.abs(np.minimum(np.minimum(track.frames - 22.0, 54.0 - track.frames), 0.0))
    heights = track.heights + sinking
    said = speed.hear(only_case(Track("Brindle", FPS, track.frames, np.stack((0 * heights, 0 * heights, heights), 1))))
    assert [one.trust for one in (*said.takeoff, *said.landing)] == pytest.approx([0.9, 0.9])


def test_an_exact_parabola_needs_no_help() -> None:
    assert speed.hear(only_case(hop(8.0))) is None


def test_a_side_that_the_track_cuts_off_tells_nothing() -> None:
    said = speed.hear(only_case(bent(hop(8.0, end=48.0))))
    assert said.takeoff and said.landing == ()


@pytest.mark.parametrize(("off", "trust"), [(0.0, None), (-2.2, None), (-6.0, 0.45)])
def test_feet_are_believed_before_it_and_doubted_far_from_it(off: float, trust: float | None) -> None:
    track, _ = shod(leap=Leap(height=0.45, push=0.4))
    case = only_case(bent(track))
    side = case.rising
    said = speed._fastest(side, case, side.samples.fastest + off)
    assert [one.trust for one in said] == ([] if trust is None else [pytest.approx(trust)])


def test_poses_know_better() -> None:
    case = only_case(bent(hop(8.0)))
    assert speed.hear(replace(case, posed=object())) is None
