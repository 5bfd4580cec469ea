"""How well a flight can be known from frames: the published error of a parabola, whole frames, contact frames."""

import itertools
import math

import numpy as np
import pytest
from leapwright.analysis import Jump, Settings, Track, World, audit_track

from .worked import Worked

G = 9.80665
SIGMA = 0.001
"""Meters of position noise, independent on every frame."""


def published_error(count: int, *, fps: float, sigma: float = SIGMA) -> float:
    """Return the standard error of the gravity of a least-squares parabola over equally spaced samples, m/s².

    σ fps² sqrt(720 / (N (N² - 1) (N² - 4))): σ² (XᵀX)⁻¹ of a quadratic in closed form, which a test
    below works anew with numpy; it attains the Cramér-Rao bound for Gaussian noise.
    """
    return sigma * fps**2 * math.sqrt(720.0 / (count * (count**2 - 1) * (count**2 - 4)))


def jumps_of(track: Track, gravity: float = G) -> tuple[Jump, ...]:
    return audit_track(track, Settings(world=World(gravity=gravity))).jumps


@pytest.mark.parametrize(("count", "printed"), [(5, 0.308), (7, 0.126), (9, 0.0656), (13, 0.0257), (25, 0.0050)])
def test_the_published_error_is_that_of_the_design_matrix(count: int, printed: float) -> None:
    # 1 mm at 24 fps; σ² (XᵀX)⁻¹ worked by numpy.
    t = np.arange(count) / 24.0
    design = np.column_stack([np.ones(count), t, t**2])
    error = 2.0 * SIGMA * math.sqrt(np.linalg.inv(design.T @ design)[2, 2])
    assert published_error(count, fps=24) == pytest.approx(error, rel=1e-6)
    assert published_error(count, fps=24) == pytest.approx(printed, rel=0.01)


@pytest.mark.parametrize(("fps", "height"), [(24, 0.40), (24, 1.00), (60, 0.40)])
def test_fitted_gravity_scatters_as_published_and_says_so(fps: int, height: float) -> None:
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
    least, most = published_error(inside, fps=fps), published_error(inside - 2, fps=fps)
    assert np.median(counts) <= inside, "a contact frame is in the fit"
    assert abs(np.mean(found) - G) < 4.0 * most / math.sqrt(40.0), "biased"
    assert 0.70 * least <= np.std(found) <= 1.30 * most
    assert 0.75 * least <= np.median(stated) <= 1.5 * most
    # Student's t with 4 to 10 degrees of freedom holds 88 to 93 % within two errors; 40 draws scatter by 5 %.
    held = np.mean(np.abs(np.array(found) - G) <= 2.0 * np.array(stated))
    assert held >= 0.80, f"two stated errors hold the truth in only {held:.0%}"


# Airborne frames: worst apparent gravity when both ends round the wrong way by half a frame (e = ±1), percent.
ROUNDING = ((6, 36, -31), (8, 27, -23), (12, 17, -16), (16, 13, -12), (24, 8.5, -8.2))


@pytest.mark.parametrize(("frames", "high", "low"), ROUNDING)
def test_whole_frames_bend_gravity_by_no_more_than_the_bound(frames: int, high: float, low: float) -> None:
    # A jump of the right height whose airtime of n + e frames is keyed as n: apparent gravity ((n + e) / n)².
    for e, percent in ((1.0, high), (-1.0, low)):
        height = G * ((frames + e) / 24.0) ** 2 / 8.0
        apparent = 8.0 * height / (frames / 24.0) ** 2
        assert (apparent / G - 1.0) * 100.0 == pytest.approx(percent, abs=0.6)
        keyed = Worked(height=height, push=height, gravity=apparent)
        track, _ = keyed.track(fps=24, phase=0.0)
        (jump,) = jumps_of(track)
        assert jump.flight.gravity.value / G == pytest.approx(((frames + e) / frames) ** 2, rel=0.03)
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


# Airborne frames, push ratio; mean and least over all phases of fitted over true gravity with one contact frame taken
# in at each side, then with two.
CONTAMINATED = (
    (6, 1.0, (0.943, 0.879), (0.776, 0.692)), (8, 1.0, (0.969, 0.930), (0.862, 0.802)),
    (12, 1.0, (0.988, 0.971), (0.937, 0.905)), (24, 1.0, (0.998, 0.995), (0.987, 0.979)),
    (8, 2.0, (0.954, 0.895), (0.793, 0.703)),
)  # fmt: skip
PHASES = tuple(itertools.islice(np.linspace(0.0, 1.0, 17), 16))


@pytest.mark.parametrize(("frames", "ratio", "one", "two"), CONTAMINATED)
def test_contact_frames_do_not_reach_the_fit(
    frames: int, ratio: float, one: tuple[float, float], two: tuple[float, float]
) -> None:
    # A parabola that takes in more frames on each side reads gravity too low by the printed shares; the audit must not.
    # There a frame on the contact itself counts as air: only then is the printed least value reached.
    height = G * (frames / 24.0) ** 2 / 8.0
    worked = Worked(height=height, push=height / ratio, gravity=G, hold=0.3)
    traps, fitted = {1: [], 2: []}, []
    for phase in PHASES:
        track, events = worked.track(fps=24, phase=float(phase))
        first, last = math.ceil(events["takeoff"] - 1e-9), math.floor(events["landing"] + 1e-9)
        for more, trap in traps.items():
            window = (track.frames >= first - more) & (track.frames <= last + more)
            trap.append(-2.0 * np.polyfit(track.seconds[window], track.heights[window], 2)[0] / G)
        jumps = jumps_of(track)
        assert len(jumps) == 1, f"phase {phase}"
        if jumps[0].flight.gravity is not None:
            fitted.append(jumps[0].flight.gravity.value / G)
    for trap, (mean, least) in zip(traps.values(), (one, two), strict=True):
        assert (np.mean(trap), min(trap)) == pytest.approx((mean, least), abs=0.006), "not set as published"
    assert len(fitted) >= (12 if frames > 6 else 1)
    assert np.mean(fitted) == pytest.approx(1.0, abs=0.005)
    assert min(fitted) > 0.98


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
