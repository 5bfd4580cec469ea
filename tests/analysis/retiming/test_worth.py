"""A jump gets worse by findings that nobody asked for, by a push that fits less, and by a flight further from its pace.
"""

from dataclasses import replace

from leapwright.analysis import audit_track
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
