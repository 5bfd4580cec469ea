"""How well a flight can be known from frames: the least error of a parabola, whole frames, contact frames."""

import itertools
import math

import numpy as np
import pytest
from leapwright.analysis import Jump, Settings, Track, World, audit_track

from .worked import Worked

G = 9.80665
SIGMA = 0.001
"""Meters of position noise, independent on every frame."""


def closed_error(count: int, *, fps: float, sigma: float = SIGMA) -> float:
    """Return the standard error of the gravity of a least-squares parabola over equally spaced samples, m/s².

    σ fps² sqrt(720 / (N (N² - 1) (N² - 4))): σ² (XᵀX)⁻¹ of a quadratic in closed form, which a test
    below works anew with numpy; it attains the Cramér-Rao bound for Gaussian noise.
    """
    return sigma * fps**2 * math.sqrt(720.0 / (count * (count**2 - 1) * (count**2 - 4)))


def jumps_of(track: Track, gravity: float = G) -> tuple[Jump, ...]:
    return audit_track(track, Settings(world=World(gravity=gravity))).jumps


@pytest.mark.parametrize("count", [5, 7, 9, 13, 25])
def test_the_error_in_closed_form_is_that_of_the_design_matrix(count: int) -> None:
    # 1 mm at 24 fps; σ² (XᵀX)⁻¹ worked by numpy.
    t = np.arange(count) / 24.0
    design = np.column_stack([np.ones(count), t, t**2])
    error = 2.0 * SIGMA * math.sqrt(np.linalg.inv(design.T @ design)[2, 2])
    assert closed_error(count, fps=24) == pytest.approx(error, rel=1e-6)


@pytest.mark.parametrize(("fps", "height"), [(24, 0.40), (24, 1.00), (60, 0.40)])
def test_fitted_gravity_scatters_as_a_least_squares_fit_must_and_says_so(fps: int, height: float) -> None:
    # Monte Carlo of 40 noisy copies: the scatter of a standard deviation is 1 / sqrt(2 · 39) = 11 %, so 30 % is
    # near 3 of those. A fit that drops the sample next to a contact has N - 2: the bound is let grow to that.
    worked = Worked(height=height, push=0.40, gravity=G)
    track, events = worked.track(fps=fps, phase=0.37)
    rng = np.random.default_rng(7)
    found, stated, counts = [], [], []
    for _ in range(40):
        noise = rng.normal(0.0, SIGMA, track.positions.shape)
        jumps = jumps_of(Track("noisy", fps, track.frames, track.positions + noise))
        assert len(jumps) == 1
        found.append(jumps[0].flight.gravity.value)
        stated.append(jumps[0].flight.gravity.error)
        counts.append(jumps[0].flight.samples)
    inside = math.floor(events["landing"]) - math.ceil(events["takeoff"]) + 1
    least, most = closed_error(inside, fps=fps), closed_error(inside - 2, fps=fps)
    assert np.median(counts) <= inside, "a contact frame is in the fit"
    assert abs(np.mean(found) - G) < 4.0 * most / math.sqrt(40.0), "biased"
    assert 0.70 * least <= np.std(found) <= 1.30 * most
    assert 0.75 * least <= np.median(stated) <= 1.5 * most
    # Student's t with 4 to 10 degrees of freedom holds 88 to 93 % within two errors; 40 draws scatter by 5 %.
    held = np.mean(np.abs(np.array(found) - G) <= 2.0 * np.array(stated))
    assert held >= 0.80, f"two stated errors hold the truth in only {held:.0%}"


@pytest.mark.parametrize("frames", [6, 8, 12, 16, 24])
def test_whole_frames_bend_gravity_by_no_more_than_the_bound(frames: int) -> None:
    # A jump of the right height whose airtime of n + e frames is keyed as n: apparent gravity ((n + e) / n)². Both
    # ends rounded the wrong way by half a frame are the worst.
    for e in (1.0, -1.0):
        height = G * ((frames + e) / 24.0) ** 2 / 8.0
        apparent = 8.0 * height / (frames / 24.0) ** 2
        keyed = Worked(height=height, push=height, gravity=apparent)
        track, _ = keyed.track(fps=24, phase=0.0)
        (jump,) = jumps_of(track)
        assert jump.flight.gravity.value == pytest.approx(apparent)
        blamed = [found.code for found in jump.findings if found.code in ("air-floaty", "air-snappy")]
        assert not blamed, f"{blamed}: tighter than whole frames allow (n = {frames}, e = {e:+g})"


@pytest.mark.parametrize("frames", [10, 12, 16, 24])
def test_a_flight_half_or_twice_as_fast_is_not_rounding(frames: int) -> None:
    # The other side of the bound: this is far beyond max(25 %, 2 / n).
    for pace, code in ((0.6, "air-floaty"), (1.6, "air-snappy")):
        height = G * pace**2 * (frames / 24.0) ** 2 / 8.0
        track, _ = Worked(height=height, push=height, gravity=G * pace**2).track(fps=24)
        (jump,) = jumps_of(track)
        assert code in [found.code for found in jump.findings]


PHASES = tuple(itertools.islice(np.linspace(0.0, 1.0, 17), 16))


def lost(frames: np.ndarray, *, ratio: float, events: dict[str, float]) -> float:
    """Return the share of gravity that a fit over these frames loses to those of them before takeoff or after landing.

    A push of constant force speeds up by ratio times g: a time l before takeoff it is (ratio + 1) g l² / 2 off the
    flight's parabola. A fit over N samples x frames from their middle weighs it by p over the sum of p², where p is x²
    less its mean (N² - 1) / 12 and p² sums to N (N² - 1) (N² - 4) / 180; gravity is twice that weight.
    """
    late = np.clip(np.maximum(events["takeoff"] - frames, frames - events["landing"]), 0.0, None)
    count, x = len(frames), frames - frames.mean()
    p = x**2 - (count**2 - 1) / 12.0
    return (ratio + 1.0) * float(p @ late**2) / (count * (count**2 - 1) * (count**2 - 4) / 180.0)


@pytest.mark.parametrize(("frames", "ratio"), [(6, 1.0), (8, 1.0), (12, 1.0), (24, 1.0), (8, 2.0)])
def test_contact_frames_do_not_reach_the_fit(frames: int, ratio: float) -> None:
    # A parabola that takes in one or two more frames on each side reads gravity too low, at the worst by a tenth to a
    # third where the flight is short; the audit must not.
    height = G * (frames / 24.0) ** 2 / 8.0
    worked = Worked(height=height, push=height / ratio, gravity=G, hold=0.3)
    for phase in PHASES:
        track, events = worked.track(fps=24, phase=float(phase))
        first, last = math.ceil(events["takeoff"] - 1e-9), math.floor(events["landing"] + 1e-9)
        for more in (1, 2):
            window = (track.frames >= first - more) & (track.frames <= last + more)
            trap = -2.0 * np.polyfit(track.seconds[window], track.heights[window], 2)[0] / G
            assert trap == pytest.approx(1.0 - lost(track.frames[window], ratio=ratio, events=events)), "ill set"
        (jump,) = jumps_of(track)
        assert jump.flight.gravity.value == pytest.approx(G), f"phase {phase}"


@pytest.mark.parametrize("fps", [24, 25, 30])
def test_the_highest_sampled_frame_misses_the_apex_but_the_audit_does_not(fps: int) -> None:
    # The highest sample lies at most g / (8 fps²) under the true apex: 2.1, 2.0, 1.4 mm.
    worked = Worked(height=0.5, push=0.4, gravity=G)
    for phase in PHASES:
        track, events = worked.track(fps=fps, phase=float(phase))
        (jump,) = jumps_of(track)
        top = 1.0 + worked.push + worked.height
        assert 0.0 <= top - track.heights.max() <= G / (8.0 * fps**2) + 1e-9
        assert jump.apex.height == pytest.approx(top, abs=1e-4)
        assert jump.apex.frame == pytest.approx(events["apex"], abs=0.01)
