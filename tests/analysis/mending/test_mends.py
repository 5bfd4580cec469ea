"""Each mend is a whole plan: what it keeps stays as it is, and what no body or no timing can do is not offered."""

from dataclasses import replace

import pytest
from leapwright.analysis import Limits, Settings, World, audit_track
from leapwright.analysis.audit import judge
from leapwright.analysis.mend import KEPT_BY_WAY, MendWay
from leapwright.analysis.mending import with_mends
from leapwright.analysis.mending.heights import heights
from leapwright.analysis.mending.words import sentence
from leapwright.analysis.retiming.aim import Aim

from tests.analysis import closed_form
from tests.analysis.keyed_leap import FLOATY, GRAVITY, LATE, REAL, RUSHED, SOUND, keyed, retimed
from tests.quay.motion import FPS


def mended(leap):
    """Return the jump of a leap, and its mends by their way."""
    jump = audit_track(keyed(leap), REAL).jumps[0]
    return jump, {mend.way: mend for mend in jump.mends}


def test_a_jump_that_is_right_has_none() -> None:
    jump, mends = mended(SOUND)
    assert not jump.findings and not mends


def test_real_time_names_every_event_and_fits_push_flight_and_absorb_at_once() -> None:
    jump, mends = mended(LATE)
    # Keyed at 19, 27, 32, 37, 41. Rise and fall of 5 frames at a pace of 1.6 are 8 in real time; a push of 8
    # that should be 4 at that pace is 6.4 in real time, whole: 6; an absorb of 4 is 6.4 as well.
    assert dict(mends[MendWay.REAL_TIME].frames) == {
        "crouch": 21.0, "takeoff": 27.0, "apex": 35.0, "landing": 43.0, "absorbed": 49.0,
    }  # fmt: skip
    assert mends[MendWay.REAL_TIME].left == pytest.approx(6 - 6.4)
    assert sentence(mends[MendWay.REAL_TIME], jump).startswith(
        "Keep nothing, for real time: crouch 21, takeoff 27, apex 35, landing 43, absorbed 49"
    )


def test_the_flight_that_is_kept_moves_no_key_of_its_own() -> None:
    _, mends = mended(LATE)
    assert mends[MendWay.FLIGHT].moves == (("crouch", 19.0, 23.0),)


def test_a_push_is_not_kept_where_the_flight_would_float_for_it() -> None:
    # Keeping 8 frames of push makes 5 + 5 in the air into 20: the pace of 1.6 becomes 0.8.
    _, mends = mended(LATE)
    assert MendWay.PUSH not in mends


def test_two_ways_to_the_same_frames_are_one() -> None:
    # The flight of the rushed leap is in real time already, so it stays as it is in both mends.
    _, mends = mended(RUSHED)
    assert MendWay.FLIGHT in mends and MendWay.REAL_TIME not in mends


def test_what_the_drawn_times_fit_is_said_with_its_depth() -> None:
    # A push of 9 frames before a rise of 13: d = 9 h / 13 with h = g (0.62)² (13 / 24)² / 2.
    _, mends = mended(replace(FLOATY, push=9, push_real=14))
    height = 0.5 * GRAVITY * 0.62**2 * (13 / FPS) ** 2
    assert mends[MendWay.CROUCH].depth == pytest.approx(9 * height / 13)
    # In 6 frames it would rise 13 / 6 times as high as it pushes, which is more than people do.
    assert MendWay.CROUCH not in mended(FLOATY)[1]


def test_the_height_that_the_airtime_is_real_for_keeps_the_landing_where_it_is() -> None:
    jump, mends = mended(replace(RUSHED, pace=1.3, push=6, push_real=None))
    # Under g, y = v t - g t² / 2 through the landing: after 20 frames it is as far under the takeoff as drawn.
    lower = jump.takeoff.height - jump.landing.height
    seconds = 20 / FPS
    speed = 0.5 * GRAVITY * seconds - lower / seconds
    assert mends[MendWay.HEIGHT].height == pytest.approx(speed**2 / (2 * GRAVITY))
    # A push of so many frames at constant force reaches that speed over half of speed times time.
    assert mends[MendWay.HEIGHT].depth == pytest.approx(0.5 * speed * jump.push.frames.value / FPS)
    # It is at its top after speed / g, of 20 frames fewer than half.
    assert dict(mends[MendWay.HEIGHT].frames)["apex"] == jump.takeoff.frame + round(speed / GRAVITY * FPS) < 35.0 + 10.0


def test_an_eased_push_is_told_to_ease_less() -> None:
    # A push half as long again as a steady one, its speed running on into the flight (a cubic ease-in, k = 1.5).
    leap = closed_form.Leap(**closed_form.eased(1.6))
    jump = with_mends(closed_form.build(leap)[0], judge(closed_form.measured(leap), Settings()), Settings())
    mends = {mend.way: mend for mend in jump.mends}
    assert "push-eases" in {finding.code for finding in jump.findings}
    assert "ease less" in sentence(mends[MendWay.EASE], jump)
    (start,) = [frame for event, frame in mends[MendWay.EASE].frames if event == "crouch"]
    assert jump.takeoff.frame - start == pytest.approx(jump.push.expected.value, abs=1.0)
    # 0.45 m up take 7.2705 frames and ask for a push of 7.2705 · 0.35 / 0.45 = 5.6549, drawn in 6.
    assert mends[MendWay.EASE].left == pytest.approx(6.0 - 5.6549, abs=1e-3)


@pytest.mark.parametrize(("leap", "way"), [(FLOATY, MendWay.FLIGHT), (LATE, MendWay.REAL_TIME), (LATE, MendWay.FLIGHT)])
def test_the_retiming_that_a_mend_names_goes_to_its_frames(leap, way) -> None:
    _, mends = mended(leap)
    forecast = retimed(keyed(leap), aim=Aim(KEPT_BY_WAY[way], ripple=True))
    new = {move.event: move.new for move in forecast.moves}
    assert {event: new[event] for event, _ in mends[way].frames} == dict(mends[way].frames)


def test_a_landing_sinks_no_deeper_than_the_body_can() -> None:
    # 16 frames down are 2.18 m: half of that, 1.09 m, is more than a person of 0.97 m over the feet can sink. At
    # 0.6 of that, a full squat, the drop is 3.7 times as deep: no longer stiff.
    jump, mends = mended(replace(SOUND, fall=16, absorb=3, absorb_real=1.5))
    assert [finding.code for finding in jump.findings] == ["landing-stiff"]
    assert mends[MendWay.SINK].sink == pytest.approx(0.6 * 0.97)
    # It takes 16 · 0.582 / 2.18 = 4.3 frames for it.
    assert dict(mends[MendWay.SINK].frames)["absorbed"] == jump.landing.frame + 4.0
    assert jump.findings[0].mend.endswith("or no body sinks on 1.09 m: roll, or accept it")


def test_a_fall_that_no_crouch_absorbs_is_rolled() -> None:
    # 20 frames down are 3.41 m, 5.9 times the 0.58 m: as deep as it can it would still be all but stiff.
    jump, mends = mended(replace(SOUND, fall=20, absorb=4, absorb_real=2, settle=8, upright=0.9))
    assert list(mends) == [MendWay.ROLL]
    assert jump.findings[0].mend == "No body sinks on 1.70 m: roll, or accept it"


def test_findings_of_one_jump_share_one_plan() -> None:
    jump, _ = mended(FLOATY)
    said = {finding.mend for finding in jump.findings if finding.code in {"air-floaty", "push-short", "push-speed"}}
    assert len(said) == 1 and "keep the flight: crouch 15 (push exact)" in said.pop()


def test_a_style_that_is_meant_needs_no_mend() -> None:
    jump, _ = mended(replace(SOUND, pace=0.7))
    (finding,) = [finding for finding in jump.findings if finding.code == "air-floaty"]
    assert finding.severity == "note" and finding.mend.startswith("Leave it, if the style is meant")


@pytest.mark.parametrize(("gravity", "offered"), [(0.36, True), (0.31, False)])
def test_a_height_of_more_than_three_times_its_own_is_a_matter_of_timing(gravity: float, offered: bool) -> None:
    # Under so much of g the airtime is real for 1 / gravity of the height: 2.8 and 3.2 times. A galago's legs would do.
    leap = closed_form.Leap(
        height=0.3, gravity=gravity * closed_form.G, push=0.4, push_stretch=0.3, absorb_stretch=0.3
    )
    jump = closed_form.measured(leap, World(kind="galago"))
    ways = {mend.way for mend in heights(jump, frozenset({"air-floaty"}), Limits())}
    assert (MendWay.HEIGHT in ways) is offered


@pytest.mark.parametrize(("stretch", "offered"), [(0.66, True), (0.59, False)])
def test_a_height_that_no_legs_reach_from_that_depth_is_not_offered(stretch: float, offered: bool) -> None:
    # At 0.6 g 0.3 m are real for 0.5 m, at sqrt(2 g 0.5) = 3.132 m/s. A push of 2 · 0.3 / 1.879 s, stretched, takes it
    # half that speed deep: 0.330 and 0.295 m, of which a person rises 1.6 times as high, 0.528 and 0.472 m.
    leap = closed_form.Leap(height=0.3, gravity=0.6 * closed_form.G, push=0.3, push_stretch=stretch)
    ways = {mend.way for mend in heights(closed_form.measured(leap), frozenset({"air-floaty"}), Limits())}
    assert (MendWay.HEIGHT in ways) is offered
