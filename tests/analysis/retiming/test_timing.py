"""The lengths that a mend may give to push, rise, fall and absorb, and how far off each is: worked out by hand."""

import math
from dataclasses import replace

import pytest
from leapwright.analysis import Finding
from leapwright.analysis.retiming.timing import exact_lengths, near_lengths

from tests.analysis.closed_form import Leap, measured

OLD = {"crouch": 0.0, "takeoff": 6.0, "apex": 16.0, "landing": 26.0, "absorbed": 32.0}
EXACT = {"push": 9.0, "rise": 15.0, "fall": 15.0, "absorb": 9.0}
"""Half as long again, all of it."""


def tried(exact: dict[str, float] = EXACT, old: dict[str, float] = OLD) -> dict[tuple[float, ...], float]:
    return {tuple(lengths.values()): off for off, lengths in near_lengths(old, exact, step=1)}


@pytest.mark.parametrize(
    ("lengths", "off"),
    [
        # All of it exact.
        ((9.0, 15.0, 15.0, 9.0), 0.0),
        # 29 put the apex half a frame off, of 29; push 8.7, absorb 8.7.
        ((9.0, 15.0, 14.0, 9.0), math.log(30 / 29) + math.log(9 / 8.7) + 1 / 29),
        ((8.0, 15.0, 14.0, 9.0), math.log(30 / 29) + math.log(8.7 / 8) + 1 / 29),
        # 31, of 31; push and absorb 9.3.
        ((9.0, 15.0, 16.0, 9.0), math.log(31 / 30) + math.log(9.3 / 9) + 1 / 31),
        # 32: push 9.6, absorb 9.6.
        ((10.0, 16.0, 16.0, 10.0), math.log(32 / 30) + math.log(10 / 9.6)),
    ],
)
def test_a_timing_is_off_by_its_flight_its_push_and_its_apex(lengths: tuple[float, ...], off: float) -> None:
    found = tried()
    if lengths not in found:  # a tie of two rises is settled either way
        push, rise, fall, absorb = lengths
        lengths = (push, fall, rise, absorb)
    assert found[lengths] == pytest.approx(off, abs=1e-9)


def test_a_flight_of_few_frames_keeps_rise_and_fall_even() -> None:
    # 4.5 and 4.5 frames are no 4 and 5: that leans by 1.25, and an even flight of five and six frames by 1.2.
    short = {"push": 3.0, "rise": 4.5, "fall": 4.5}
    old = {"crouch": 0.0, "takeoff": 2.0, "apex": 5.0, "landing": 8.0}
    airs = {rise + fall for _, rise, fall in tried(short, old)}
    assert 9.0 not in airs and {8.0, 10.0} <= airs


@pytest.mark.parametrize(
    ("code", "stretch", "absorb"),
    [
        # Twice too slow and told so: as long as its fall asks for.
        ("landing-mushy", 3.0, 1.0 / 3.0),
        ("landing-stiff", 0.4, 2.5),
        # Too slow, and told of what it is not.
        ("landing-stiff", 3.0, 1.0),
    ],
)
def test_a_landing_that_is_told_off_is_fitted_to_its_fall(code: str, stretch: float, absorb: float) -> None:
    jump = measured(Leap(absorb_stretch=stretch))
    told = Finding(code=code, severity="check", frames=(0.0, 1.0), template="", values={}, measured=0.0, expected=0.0)
    events = {name: getattr(jump, name).frame for name in OLD}
    exact = exact_lengths(replace(jump, findings=(told,)), events, keep="flight", pace=1.0)
    assert exact["absorb"] == pytest.approx(absorb * (events["absorbed"] - events["landing"]))


def test_a_push_that_is_kept_stays_and_the_flight_goes_with_it() -> None:
    # Half as long again as its flight asks for: so the flight is to be.
    jump = measured(Leap(height=0.4, push=0.4, push_stretch=1.5))
    events = {name: getattr(jump, name).frame for name in OLD}
    exact = exact_lengths(jump, events, keep="push", pace=1.0)
    assert exact["push"] == events["takeoff"] - events["crouch"]
    assert exact["rise"] == pytest.approx(1.5 * (events["apex"] - events["takeoff"]))


def test_push_and_apex_are_tried_around_where_the_flight_puts_them() -> None:
    # Of 29 in the air for 30 the push of 9 is 8.7 and the rise of 15 is 14.5: a frame past those to either side of the
    # one, and those to either side of the other.
    near = [lengths for lengths in tried() if lengths[1] + lengths[2] == 29.0]
    assert {push for push, *_ in near} == {7.0, 8.0, 9.0, 10.0}
    assert {rise for _, rise, *_ in near} == {14.0, 15.0}
