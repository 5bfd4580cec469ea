"""The start of a push: where a hold is seen to end, how unsure it is, and how long noise hides its end."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis.contacts.ballistic import Parabola, Stretch
from leapwright.analysis.contacts.bottom import Bottom
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
    flies = DISTANCE + SPEED * s - 0.5 * GRAVITY * s**2
    heights = np.where(s < 0.0, rises, flies) + creep * np.minimum(frames - START, 0.0)
    arc = Parabola(END, DISTANCE, SPEED, -0.5 * GRAVITY)
    first = int(np.ceil(END - phase))
    return rising_side(frames, heights, Stretch(first, 65, arc, 0.0), arc, FPS)


def low(frame: float, error: float = 0.1) -> Bottom:
    return Bottom(frame, error, 0.0, held=True, cut=False)


def test_a_contact_lies_between_two_samples_and_noise_hides_it_longer() -> None:
    # Evenly spread over one sample: 1 / sqrt(12) of it.
    assert shows(side(), 0.0) == pytest.approx(12.0**-0.5)
    # Three body weights, as feet meet the ground with, take it 2 · 5 mm off in sqrt(2 · 0.01 / (3 g)) s.
    seconds = np.sqrt(2.0 * 0.010 / (3.0 * 9.80665))
    assert shows(side(), 0.005) == pytest.approx((1.0 + seconds * FPS) * 12.0**-0.5)


def test_a_force_that_sets_in_smoothly_begins_where_its_hold_ends_however_late_a_drive_has_it() -> None:
    # x = d s⁴: 2e-6 of it is passed at s = 0.038, less than a frame after the start.
    foot = low(START + 4.0)
    told = start_of(low(START + 3.0), foot, side(4.0), END, noise=0.0)
    assert told.frame == pytest.approx(START, abs=1.0)
    assert abs(told.frame - START) < 2.0 * told.error < 2.5
    assert told.along == 0.0


def test_a_start_that_the_samples_allow_is_left_where_the_drives_have_it() -> None:
    assert start_of(low(START + 0.4), low(START), side(), END, noise=0.0).frame == START + 0.4


def test_a_hold_that_creeps_leaves_the_start_to_the_drives_and_unsure() -> None:
    told = start_of(low(START + 1.0), low(START), side(creep=1e-4), END, noise=0.0)
    assert told.frame == START + 1.0
    assert told.error > 0.15 * PUSH


def test_a_rest_long_before_is_another_one() -> None:
    # The last still sample lies 30 frames before the start that the drives have, past three tenths of the push.
    late = START + 8.0
    told = start_of(low(late), low(START), side(), END, noise=0.0)
    assert told.frame == late


def test_a_measured_force_sets_in_before_its_samples_show_it_by_the_cube_root_of_their_noise() -> None:
    # A force that grows evenly from nothing speeds the body up as t² and moves it as t³: eight times the noise hides it
    # for twice as long.
    least, more, most = (
        START - start_of(low(START), low(START), side(), END, noise=noise).frame for noise in (2e-4, 16e-4, 128e-4)
    )
    assert 0.1 * PUSH < least < 0.2 * PUSH
    assert most - more == pytest.approx(2.0 * (more - least), rel=1e-6)
    # 0.44 m of push: 1.6 mm are passed within 0.1538 of it, 0.2 mm within 0.0769.
    assert more - least == pytest.approx(0.55 * 0.0769 * PUSH, rel=1e-2)


def test_a_push_lower_than_its_noise_hides_its_start_no_longer_than_noise_as_large() -> None:
    told = [start_of(low(START), low(START), side(), END, noise=noise).frame for noise in (0.5, 5.0)]
    assert told[0] == told[1] > START - PUSH


def test_few_samples_leave_a_start_no_more_open_than_a_third_of_its_push() -> None:
    told = start_of(low(START, 40.0), low(START), side(), END, noise=1.5e-3)
    assert told.error < 0.4 * PUSH


def test_a_bottom_that_is_turned_through_keeps_its_vertex_where_that_is_known_better() -> None:
    foot = Bottom(START - 0.2, 0.05, 0.0, held=False, cut=False)
    told = start_of(low(START + 1.0, 0.5), foot, side(), END, noise=0.0)
    assert (told.frame, told.error) == (foot.frame, foot.error)
    # Where it is known worse, a push of no known shape begins within a fifth of itself of where a drive has it.
    wide = Bottom(START - 0.2, 9.0, 0.0, held=False, cut=False)
    unlike = start_of(low(START + 1.0, 0.5), wide, side(), END, noise=0.0)
    assert unlike.error == pytest.approx(np.hypot(0.5, 0.2 * (PUSH - 1.0)))
    assert start_of(low(START + 1.0, 0.5), wide, side(), END, noise=0.0).frame == START + 1.0


def test_an_arc_that_bends_upward_limits_nothing() -> None:
    """Few keys by eye, far off their parabola, bend it so."""
    bent = replace(side(), parabola=Parabola(END, DISTANCE, SPEED, 2.5e-4))
    assert shows(bent, 0.1) == np.inf


@pytest.mark.parametrize("power", [3.0, 4.0])
def test_a_smooth_start_out_of_an_exact_hold_is_told_as_early_as_late(power: float) -> None:
    # x = d sᵖ moves by 2e-6 d within 0.0126 and 0.0376 of the push, 0.2 and 0.7 frame; the last sample at rest then
    # lies anywhere in the frame before.
    late = []
    for phase in np.arange(0.0, 1.0, 0.05):
        told = start_of(low(START + 3.0), low(START + 4.0), side(power, phase=phase), END, noise=0.0)
        late.append(told.frame - START)
        # An even spread over one sample, 1 / sqrt(12), and a twenty-fifth of the push that no height shows.
        assert told.error == pytest.approx(np.hypot(12.0**-0.5, (END - START - 3.0) / 25.0), rel=0.05)
    assert abs(np.mean(late)) < 0.5 < 0.5 + 0.0376 * PUSH


def test_a_measured_start_is_unsure_by_what_smooth_forces_leave_open() -> None:
    # However well a drive fits, two in three begin within 0.07 of the push of where they are told to.
    told = start_of(low(START, 0.1), low(START), side(), END, noise=1.5e-3)
    assert told.error == pytest.approx(np.hypot(0.1, 0.07 * PUSH), rel=0.1)
