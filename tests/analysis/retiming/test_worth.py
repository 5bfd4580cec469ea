"""A jump gets worse by findings that nobody asked for, by a push that fits less, and by a flight further from its pace.
"""

from dataclasses import replace

import pytest
from leapwright.analysis import audit_track
from leapwright.analysis.quantity import as_ratio, in_frames
from leapwright.analysis.retiming.aim import Aim
from leapwright.analysis.retiming.forecast import compare
from leapwright.analysis.retiming.retime import no_better
from leapwright.analysis.retiming.worth import Harm, worth
from leapwright.analysis.time_map import TimeMap

from tests.analysis.keyed_leap import FLOATY, REAL, SOUND, keyed

STAYS = TimeMap((19, 25), (19, 25))
SOUNDS, FLOATS = (audit_track(keyed(leap), REAL) for leap in (SOUND, replace(FLOATY, rise=12, fall=12)))
SNAPS = audit_track(keyed(replace(SOUND, rise=6, fall=6, pace=1.5)), REAL)


def weighed(before, after, aim):
    return worth(compare(before, after, 0, time_map=STAYS, pace=aim.pace_of(before.jumps[0])), aim)


def test_new_findings_and_a_push_that_fits_less_are_harm():
    found = weighed(SOUNDS, FLOATS, Aim("nothing"))
    assert set(found.harms) == {Harm.FINDING, Harm.PACE, Harm.AGREEMENT}
    assert "air-floaty" in found.new and "push-short" in found.new


def test_the_way_back_is_none():
    assert weighed(FLOATS, SOUNDS, Aim("nothing")).harms == ()


def test_the_pace_that_was_asked_for_is_no_harm_and_the_opposite_one_is():
    after = replace(SNAPS, jumps=tuple(
        replace(jump, findings=tuple(replace(one, severity="check") for one in jump.findings)) for jump in SNAPS.jumps
    ))  # fmt: skip
    assert "air-snappy" in {finding.code for finding in after.jumps[0].findings}
    assert Harm.FINDING not in weighed(SOUNDS, after, Aim("nothing", pace=1.5)).harms
    assert "air-snappy" in weighed(SOUNDS, after, Aim("nothing", pace=0.8)).new


def test_the_refusal_says_what_would_be_worse_and_what_to_do():
    aim = Aim("nothing")
    said = str(no_better(weighed(SOUNDS, FLOATS, aim), aim))
    assert said.startswith("on whole frames this would leave the jump worse than it is (new: ")
    assert "push short" in said and said.endswith("let keys go between frames, or keep something else")


@pytest.mark.parametrize(
    ("was", "now", "harm"),
    [
        # At 0.9 of real time 20 frames are 20 ln(1 / 0.9) = 2.1 off, and 18 are 1.9: no farther.
        ((20.0, 0.9), (18.0, 0.9), False),
        ((20.0, 0.9), (24.0, 0.9), True),
        # From 0.2 frames off to 0.8: within the frame of rounding on ones; to 1.2 frames it is not.
        ((20.0, 0.99), (20.0, 0.96), False),
        ((20.0, 0.99), (20.0, 0.94), True),
    ],
)
def test_a_flight_is_farther_from_its_pace_by_frames(was, now, harm):
    forecast = compare(SOUNDS, SOUNDS, 0, time_map=STAYS)
    jumps = []
    for jump, (airtime, pace) in ((forecast.before, was), (forecast.after, now)):
        flight = replace(jump.flight, airtime=in_frames(airtime, 0.0), pace=as_ratio(pace, 0.0))
        jumps.append(replace(jump, flight=flight))
    before, after = jumps
    assert (Harm.PACE in worth(replace(forecast, before=before, after=after), Aim("nothing")).harms) is harm
