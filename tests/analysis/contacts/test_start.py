"""The start of a push: where a hold is seen to end, how unsure it is, and how long noise hides its end."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis.contacts.ballistic import Parabola, Stretch
from leapwright.analysis.contacts.bottom import Bottom
from leapwright.analysis.contacts.knot import Knot
from leapwright.analysis.contacts.side import Side, rising_side
from leapwright.analysis.contacts.start import shows, start_of

FPS = 60.0
GRAVITY = 9.80665 / FPS**2
START, PUSH, RATIO = 30.0, 18.0, 1.0
"""Frames: the hold's end and the push; jump height over push distance."""
END = START + PUSH
SPEED = GRAVITY * PUSH * RATIO
"""A constant net force of R body weights takes T to v = R g T."""
DISTANCE = 0.5 * SPEED * PUSH


def side(power: float = 2.0, *, creep: float = 0.0, phase: float = 0.0) -> Side:
    """Return the side of a takeoff out of a hold: x = d sᵖ, then free flight.

    creep: meters a frame in the hold; phase: of the samples, frames.
    """
    frames = np.arange(70.0) + phase
    rises = DISTANCE * np.clip((frames - START) / PUSH, 0.0, 1.0) ** power
    s = frames - END
    speed = power * DISTANCE / PUSH
    flies = DISTANCE + speed * s - 0.5 * GRAVITY * s**2
    heights = np.where(s < 0.0, rises, flies) + creep * np.minimum(frames - START, 0.0)
    arc = Parabola(END, DISTANCE, speed, -0.5 * GRAVITY)
    first = int(np.ceil(END - phase))
    return rising_side(frames, heights, Stretch(first, 65, arc, 0.0), arc, FPS)


def bottom_at(frame: float, error: float = 0.1) -> Bottom:
    return Bottom(frame, error, 0.0, held=True, cut=False)


def test_a_contact_lies_between_two_samples_and_noise_hides_it_longer() -> None:
    # Evenly spread over one sample: 1 / sqrt(12) of it.
    assert shows(side(), 0.0) == pytest.approx(12.0**-0.5)
    # Three body weights, as feet meet the ground with, take it 2 · 5 mm off in sqrt(2 · 0.01 / (3 g)) s.
    seconds = np.sqrt(2.0 * 0.010 / (3.0 * 9.80665))
    assert shows(side(), 0.005) == pytest.approx((1.0 + seconds * FPS) * 12.0**-0.5)


def end_of(seen: Side) -> Knot:
    speed = seen.parabola.speed(END)
    return Knot(END, 0.1, seen.parabola.height(END), speed, speed)


def told(seen: Side, *, low: Bottom | None = None, noise: float = 0.0) -> Bottom:
    """Return the start of the push that ends at END, known to a tenth of a frame."""
    return start_of(low or bottom_at(START), seen, end_of(seen), noise=noise)


@pytest.mark.parametrize("power", [2.0, 3.0, 4.0])
@pytest.mark.parametrize("late", [-2.0, 0.0, 3.0])
def test_the_start_out_of_an_exact_hold_does_not_hang_on_where_the_drives_have_it(power: float, late: float) -> None:
    # x = d s², a constant force; s³, one that sets in evenly; s⁴, one that sets in as a square.
    start = told(side(power), low=bottom_at(START + late))
    assert abs(start.frame - START) < 2.0 * start.error < 0.15 * PUSH
    assert start.height == pytest.approx(0.0, abs=0.003 * DISTANCE)
    assert start.along == 0.0


def test_a_constant_force_is_told_from_one_that_sets_in_smoothly() -> None:
    sharp, smooth = (told(side(power)).error for power in (2.0, 4.0))
    assert sharp < 0.5 * smooth


def test_a_start_lies_between_the_last_sample_at_rest_and_the_next() -> None:
    # Whatever the push is like: samples at 29.5 and 30.5 frames, of which the second has moved.
    start = told(side(3.0, phase=0.5), low=bottom_at(START + 4.0))
    assert START - 0.5 - 0.06 * PUSH <= start.frame <= START + 0.5


def test_a_hold_that_creeps_is_no_exact_one() -> None:
    # 0.1 mm a frame: the body has moved by as much as a smooth force moves it in the first 14 % of the push.
    start = told(side(creep=1e-4), low=bottom_at(START + 1.0))
    assert abs(start.frame - START) < 2.0 * start.error
    assert start.error > 2.0 * told(side()).error


def test_a_rest_long_before_is_another_one() -> None:
    # A body that creeps for 14 frames before it pushes: its rest ends there, its push begins later.
    seen = side()
    late = np.where(seen.frames < START - 14.0, 0.0, np.minimum(seen.frames - START + 14.0, 14.0)) * 5e-5
    start = told(replace(seen, heights=seen.heights + late))
    assert abs(start.frame - START) < 0.1 * PUSH


@pytest.mark.parametrize("noise", [3e-4, 1.5e-3, 6e-3])
def test_under_noise_forces_of_both_kinds_lie_within_what_is_said(noise: float) -> None:
    # 95 of 100 normal errors lie within 1.96 of them; of 60 draws at least 51, but for once in a thousand (binomial).
    for power in (2.0, 3.0, 4.0):
        off = []
        for seed in range(60):
            seen, rng = side(power, phase=seed / 60.0), np.random.default_rng(seed)
            start = told(replace(seen, heights=seen.heights + rng.normal(0.0, noise, len(seen.heights))), noise=noise)
            off.append(abs(start.frame - START) / start.error)
        assert np.sum(np.array(off) < 1.96) >= 51, (power, np.sort(off)[-12:])


def test_noise_hides_the_start_the_longer_the_more_there_is() -> None:
    errors = [told(side(), noise=noise).error for noise in (1e-4, 1e-3, 1e-2)]
    assert errors[0] < 0.5 * errors[1] < 0.5 * errors[2] < 0.15 * PUSH


def test_a_force_that_goes_on_through_the_bottom_gives_its_vertex() -> None:
    # The same force for 18 frames either way: a parabola, whose vertex noise of 1 mm leaves known to
    # 1 mm / (2 c √(n (n² − 1) / 12)) = 0.04 frame over its n = 37 samples.
    seen = side()
    before = np.abs(seen.frames - START) / PUSH
    dip = np.where(seen.frames < START, DISTANCE * np.minimum(before, 1.0) ** 2, seen.heights)
    start = told(replace(seen, heights=dip), noise=1e-3)
    assert start.frame == pytest.approx(START, abs=0.5)
    assert start.error < 0.03 * PUSH


def test_where_nothing_is_seen_of_a_push_its_bottom_is_left_as_it_is() -> None:
    seen, low = side(), bottom_at(END - 0.2)
    short = replace(seen, frames=seen.frames[-22:], heights=seen.heights[-22:], first=0)
    assert start_of(low, short, end_of(seen), noise=0.0) is low


def test_an_arc_that_bends_upward_limits_nothing() -> None:
    """Few keys by eye, far off their parabola, bend it so."""
    bent = replace(side(), parabola=Parabola(END, DISTANCE, SPEED, 2.5e-4))
    assert shows(bent, 0.1) == np.inf
    assert np.isfinite(told(bent).frame)


def smooth(ramp: float, *, phase: float) -> Side:
    """Return the side of a takeoff whose force sets in with least jerk over a share of the push, summed twice."""
    clock = np.linspace(0.0, 1.0, 6001)
    share = np.clip(clock / ramp, 0.0, 1.0)
    sums = [share**3 * (10.0 - 15.0 * share + 6.0 * share**2)]
    for _ in range(2):
        added = 0.5 * (sums[-1][1:] + sums[-1][:-1]) * (clock[1] - clock[0])
        sums.append(np.concatenate(([0.0], np.cumsum(added))))
    height, speed = DISTANCE * sums[2] / sums[2][-1], DISTANCE / PUSH * sums[1][-1] / sums[2][-1]
    frames = np.arange(65.0) + phase
    s = frames - END
    flies = DISTANCE + speed * s - 0.5 * GRAVITY * s**2
    heights = np.where(s < 0.0, np.interp((frames - START) / PUSH, clock, height), flies)
    arc = Parabola(END, DISTANCE, speed, -0.5 * GRAVITY)
    return rising_side(frames, heights, Stretch(int(np.ceil(END - phase)), 64, arc, 0.0), arc, FPS)


def test_a_force_that_sets_in_smoothly_begins_before_its_first_move_is_seen() -> None:
    # Of 30 normal misses 2.7 would be larger than 1.7 of their error: none is.
    for ramp in (1.0, 0.8, 0.4):
        for phase in np.arange(0.0, 1.0, 0.1):
            start = told(smooth(ramp, phase=phase))
            assert abs(start.frame - START) < 1.7 * start.error, (ramp, phase)


@pytest.mark.parametrize(("jitter", "is_exact"), [(2.4e-7, True), (4.8e-7, False)])
def test_a_hold_that_jitters_by_one_step_of_single_precision_is_exact(jitter: float, is_exact: bool) -> None:
    # Of heights from 2 to 4 m that step is 2⁻²² m = 2.4e-7 m. Twice as much, 1.1e-6 of a push of 0.44 m, may be a force
    # that sets in: one of least jerk has moved the body by 3.5 s⁵ = 1.1e-6 of it after s = 0.05.
    seen = side()
    rough = seen.heights + jitter * (np.arange(len(seen.frames)) % 2) * (seen.frames < START)
    start, exact = told(replace(seen, heights=rough)), told(seen)
    assert (start.error < 1.1 * exact.error) is is_exact


@pytest.mark.parametrize("power", [2.0, 3.0, 4.0])
def test_a_rest_that_outlasts_a_quarter_of_the_push_that_the_drives_have_ends_where_it_is_seen_to(power: float) -> None:
    start = told(side(power), low=bottom_at(START - 0.25 * PUSH))
    assert abs(start.frame - START) < 2.0 * start.error


def test_a_push_that_stands_still_on_its_way_begins_before_that() -> None:
    # Out of the hold 3 frames earlier, it stands still for 3 frames at 0.4 of its time, as on a breakdown that is held.
    seen, before = side(), START - 3.0
    still = np.minimum(seen.frames - before, 0.4 * PUSH)
    pushed = np.where(seen.frames < START + 0.4 * PUSH, still, seen.frames - START)
    rises = DISTANCE * np.clip(pushed / PUSH, 0.0, 1.0) ** 2
    start = told(replace(seen, heights=np.where(seen.frames < END, rises, seen.heights)), low=bottom_at(before))
    assert abs(start.frame - before) < 0.1 * PUSH
