"""One side of a flight: how long before a contact a recorded force fades, and how surely a contact is known."""

import numpy as np
import pytest
from leapwright.analysis.contacts.ballistic import Parabola, Stretch
from leapwright.analysis.contacts.bottom import Bottom
from leapwright.analysis.contacts.side import Contact, Side, falling_side, rising_side

FPS = 24.0
FRAMES = np.arange(30.0)
ARC = Parabola(15.0, 1.0, 0.0, -0.01)
STRETCH = Stretch(8, 22, ARC, 0.0)


def rising(pace: float = 1.0, *, measured: bool = False) -> Side:
    heights = ARC.c0 + ARC.c2 * (FRAMES - 15.0) ** 2
    return rising_side(FRAMES, heights, STRETCH, ARC, FPS / pace, measured=measured)


def falling() -> Side:
    return falling_side(FRAMES, ARC.c0 + ARC.c2 * (FRAMES - 15.0) ** 2, STRETCH, ARC, FPS)


def test_the_speed_of_a_recorded_push_peaks_22_to_27_milliseconds_before_takeoff() -> None:
    # Five plate records, BMC laboratory (tests/truth/SOURCES.md): 22 to 27 ms.
    assert 0.022 <= rising().lead / FPS <= 0.027


def test_the_force_of_a_landing_rises_two_to_three_times_as_fast_as_that_of_a_push_fades() -> None:
    # In the same records 5.5 to 6.8 body weights against 2.0 to 2.7: the lead is half as long, at least a third.
    assert rising().lead / 3.0 <= falling().lead <= rising().lead / 1.8


@pytest.mark.parametrize("pace", [0.5, 1.0, 2.0])
def test_times_of_a_force_go_with_the_pace_of_its_flight(pace: float) -> None:
    slow, real = rising(pace), rising()
    # A push that is as long at its own pace.
    doubts = slow.doubt(8.0 / pace, 1e-3), real.doubt(8.0, 1e-3)
    assert (slow.lead, slow.late, doubts[0]) == pytest.approx(
        [time / pace for time in (real.lead, real.late, doubts[1])])  # fmt: skip


def test_a_contact_of_a_force_unlike_all_families_is_off_by_less_than_half_a_frame_of_film() -> None:
    """Hold LATE to half of what recorded forces show (9 ms), and the spread to up to four times LATE; of measured
    tracks, whose contacts are put LATE, to less.
    """
    drawn, measured = rising(), rising(measured=True)
    assert 0.003 <= drawn.late / FPS <= 0.006
    for frames in (3.0, 6.0, 12.0):
        assert drawn.late <= drawn.doubt(frames, 1e-3) <= 4.0 * drawn.late and drawn.doubt(frames, 1e-3) < 0.5
        assert measured.doubt(frames, 1e-3) == pytest.approx(0.0115 * FPS)


def test_what_the_shape_of_a_force_leaves_open_is_more_of_short_pushes_of_long_ones_and_of_those_no_drive_follows():
    side = rising()
    assert side.doubt(0.262 * FPS, 0.0) == pytest.approx(0.0068 * FPS)
    # An e-fold shorter or longer: the root of 0.0068² + 0.0098² s² is 0.01193 s.
    for times in (np.e, 1.0 / np.e):
        assert side.doubt(0.262 * FPS * times, 0.0) == pytest.approx(0.01193 * FPS, rel=1e-3)
    # Of a residual of 0.2 % over 0.262 s: 26.7 · 0.002 · 0.262 = 0.01399 s, and 0.01556 s with the 0.0068 s.
    assert side.doubt(0.262 * FPS, 2e-3) == pytest.approx(0.01556 * FPS, rel=1e-3)


@pytest.mark.parametrize(("error", "is_lost"), [(2.5, False), (3.5, True)])
def test_a_contact_known_to_three_samples_is_lost_unless_a_bottom_leads_up_to_it(error: float, is_lost: bool) -> None:
    assert Contact(10.0, error, None).is_lost(1.0) is is_lost
    assert not Contact(10.0, error, Bottom(4.0, 0.2, 0.8, False, False)).is_lost(1.0)
