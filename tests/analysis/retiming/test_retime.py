"""A mend moves the events so that push and flight belong together, and says beforehand what an audit will find."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Track, audit_track
from leapwright.analysis.errors import RetimeError
from leapwright.analysis.retiming.aim import Aim
from leapwright.analysis.retiming.fit import fit_of
from leapwright.analysis.retiming.placing import _pin

from tests.analysis.keyed_leap import FLOATY, GRAVITY, LATE, REAL, RUSHED, SOUND, keyed, retimed
from tests.quay.motion import FPS

EVENTS = ("crouch", "takeoff", "apex", "landing", "absorbed")
PUSH, AIR = {"push-long", "push-short", "push-speed"}, {"air-floaty", "air-snappy"}
every_mismatch = pytest.mark.parametrize("leap", [FLOATY, LATE, RUSHED], ids=["floaty", "late", "rushed"])


def codes(jump):
    return {finding.code for finding in jump.findings}


def places(forecast, *events):
    """Return the new frames of these events."""
    new = {move.event: move.new for move in forecast.moves}
    return [new[event] for event in events]


def mended(track, number=0, *, ripple=True, **aim):
    return retimed(track, number, aim=Aim(ripple=ripple, **aim))


@every_mismatch
def test_the_push_is_fitted_to_a_flight_that_stays(leap):
    forecast = mended(keyed(leap), keep="flight")
    crouch, takeoff, apex, landing, absorbed = places(forecast, *EVENTS)
    # The law, rise ÷ push ratio, with the distances the shot was planned with.
    assert takeoff - crouch == leap.push_real
    assert (apex - takeoff, landing - apex, absorbed - landing) == (leap.rise, leap.fall, leap.absorb)
    assert not codes(forecast.after) & PUSH and not forecast.comes
    assert codes(forecast.before) & PUSH <= set(forecast.goes)
    assert forecast.after.push.agreement.value == pytest.approx(1.0)


@every_mismatch
def test_the_flight_is_fitted_to_a_push_that_stays(leap):
    forecast = mended(keyed(leap), keep="push")
    crouch, takeoff, apex, landing = places(forecast, *EVENTS[:4])
    share = leap.push / leap.push_real
    assert takeoff - crouch == leap.push
    assert landing - takeoff == pytest.approx(share * (leap.rise + leap.fall), abs=1.0)
    assert apex - takeoff == pytest.approx(share * leap.rise, abs=1.0)
    assert not codes(forecast.after) & PUSH
    # The flight takes on the pace of the push; that is a note where it is not real time.
    assert set(forecast.comes) <= AIR
    assert all(finding.severity == "note" for finding in forecast.after.findings)


@every_mismatch
def test_nothing_kept_brings_both_to_real_time(leap):
    forecast = mended(keyed(leap), keep="nothing")
    crouch, takeoff, apex, landing = places(forecast, *EVENTS[:4])
    gravity = GRAVITY * leap.pace**2
    height, drop = (0.5 * gravity * (n / FPS) ** 2 for n in (leap.rise, leap.fall))
    # Each event goes to a whole frame: two ends are off by half a frame each at most.
    assert apex - takeoff == pytest.approx(np.sqrt(2 * height / GRAVITY) * FPS, abs=1.0)
    assert landing - apex == pytest.approx(np.sqrt(2 * drop / GRAVITY) * FPS, abs=1.0)
    assert takeoff - crouch == pytest.approx(leap.push_real * leap.pace, abs=1.0)
    assert not forecast.after.findings and not forecast.comes


@pytest.mark.parametrize("pace", [0.7, 1.3])
def test_a_style_carries_the_push_with_it(pace):
    forecast = mended(keyed(SOUND), keep="nothing", pace=pace)
    after = forecast.after
    assert after.flight.pace.value == pytest.approx(pace, rel=0.1)
    assert after.push.pace.value == pytest.approx(pace, rel=0.15)
    assert not codes(after) & PUSH
    assert set(forecast.comes) <= AIR


@pytest.mark.parametrize("keep", ["flight", "push", "nothing"])
def test_a_jump_that_is_right_stays_as_it_is(keep):
    forecast = mended(keyed(SOUND), keep=keep)
    assert forecast.time_map.is_identity and not forecast.goes and not forecast.comes


def test_what_follows_moves_along_or_stays():
    track = keyed(FLOATY, replace(SOUND, dip=8))
    along, stays = mended(track, keep="nothing"), mended(track, keep="nothing", ripple=False)
    # At a pace of 0.62, 26 frames in the air become 16 and 8 to absorb become 5; the push is right already.
    assert along.time_map.shift == along.time_map.new[-1] - along.time_map.old[-1] == -10.0 - 3.0
    # The settle takes it up: 12 frames after the lowest point, which lies 8 + 26 after the takeoff at 25.
    assert stays.time_map.shift == 0.0 and stays.time_map.old[-1] == 25.0 + 26.0 + 8.0 + 12.0
    assert not stays.comes


def test_no_room_for_what_follows_to_stay_is_said():
    track = keyed(replace(LATE, settle=4))
    with pytest.raises(RetimeError, match="no room for what follows to stay"):
        mended(track, keep="nothing", ripple=False)


def test_a_shot_on_twos_is_mended_in_twos():
    settings = replace(REAL, world=replace(REAL.world, step=2))
    forecast = retimed(keyed(replace(FLOATY, rise=14, fall=14)), 0, aim=Aim("push"), settings=settings)
    moved = np.subtract(forecast.time_map.new, forecast.time_map.old)
    assert forecast.time_map.step == 2 and moved.any()
    assert (moved % 2 == 0).all()


@every_mismatch
def test_stepped_blocking_is_mended_like_a_drawn_curve(leap):
    for keep in ("flight", "nothing"):
        drawn, held = (mended(keyed(leap, held=h), keep=keep) for h in (False, True))
        assert held.time_map == drawn.time_map
        assert not codes(held.after) & PUSH and not held.comes


def test_an_exact_mend_may_leave_whole_frames():
    forecast = mended(keyed(FLOATY), keep="nothing", whole=False)
    assert forecast.after.flight.pace.value == pytest.approx(1.0)
    assert forecast.after.push.agreement.value == pytest.approx(1.0, abs=0.01)


def test_the_times_fit_other_heights():
    jump = audit_track(keyed(FLOATY), REAL).jumps[0]
    fit = fit_of(jump)
    # 13 frames of rise under 9.81 m/s² are h = g t² / 2; 6 of push under that flight's own style d = 6 h / 13.
    assert fit.height == pytest.approx(0.5 * GRAVITY * (13 / FPS) ** 2)
    assert fit.push_distance == pytest.approx(jump.flight.height.value * 6 / 13)
    assert fit.both == pytest.approx(fit.height * 6 / 13)


def test_the_figures_stand_side_by_side():
    rows = {row.label: row for row in mended(keyed(FLOATY), keep="flight").rows}
    assert rows["Push Frames"].before == pytest.approx(6.0)
    assert rows["Push Frames"].after == pytest.approx(10.0)
    assert rows["Agreement"].before == pytest.approx(10 / 6)


def test_what_cannot_be_mended_is_refused_with_its_reason():
    fall = Track("crate", 24, range(40), [[0, 0, 3.0 - 0.5 * GRAVITY * (max(0, n - 12) / 24) ** 2] for n in range(40)])
    with pytest.raises(RetimeError, match="has no jump, none of number 1"):
        mended(fall)
    with pytest.raises(RetimeError, match="has 1 jump, none of number 3"):
        mended(keyed(SOUND), 2)
    with pytest.raises(RetimeError, match="cannot keep the push"):
        Aim("push", pace=1.2)
    with pytest.raises(RetimeError, match="keep must be one of"):
        Aim("apex")


@pytest.mark.parametrize("step", [3, 12, 10**9])
@pytest.mark.parametrize("keep", ["flight", "push", "nothing"])
def test_a_step_that_holds_no_jump_is_no_step_and_keeps_what_is_kept(keep, step):
    settings = replace(REAL, world=replace(REAL.world, step=step))
    forecast = retimed(keyed(FLOATY), 0, aim=Aim(keep, ripple=True), settings=settings)
    crouch, takeoff, apex, landing = places(forecast, *EVENTS[:4])
    if keep == "push":
        assert takeoff - crouch == 6
    if keep == "flight":
        assert (apex - takeoff, landing - apex) == (13, 13)
    assert forecast.time_map.new[-1] < 100


@pytest.mark.parametrize("hold", ["takeoff", "crouch", "landing"])
def test_the_event_that_is_held_stays_and_what_is_around_the_jump_too(hold):
    track = keyed(FLOATY, replace(SOUND, dip=8))
    forecast = mended(track, keep="nothing", hold=hold, ripple=False)
    moves = {move.event: (move.old, move.new) for move in forecast.moves}
    assert moves[hold][0] == moves[hold][1]
    stays = [move for move in forecast.moves if move.event in ("before", "after")]
    assert stays and all(move.old == move.new for move in stays)
    # The second leap keeps every frame of its own.
    assert forecast.time_map.at([79.0]).tolist() == [79.0]


def test_a_push_goes_with_its_flight_where_the_step_holds_no_such_pace():
    # At 1.25 times the pace a rise of 8 and a push of 6 are 6.4 and 4.8, on threes 6 and 3 or 6 and 6.
    settings = replace(REAL, world=replace(REAL.world, step=3))
    forecast = retimed(keyed(SOUND), 0, aim=Aim("nothing", pace=1.25, ripple=True), settings=settings)
    push, asked = forecast.after.push.frames.value, forecast.after.push.expected.value
    assert abs(push - asked) < 1.0


def test_a_rise_and_a_fall_that_were_even_stay_even_on_twos():
    # 11 frames up and down at 0.72 of real time are 7.9 each; on twos that is 9 and 7, or 7 and 7, or 9 and 9.
    settings = replace(REAL, world=replace(REAL.world, step=2))
    forecast = retimed(keyed(replace(SOUND, rise=11, fall=11, pace=0.72)), 0, aim=Aim("nothing"), settings=settings)
    takeoff, apex, landing = places(forecast, "takeoff", "apex", "landing")
    assert apex - takeoff == landing - apex


def test_what_was_asked_for_follows_the_pace_that_was_asked_for():
    forecast = mended(keyed(SOUND), keep="nothing", pace=0.7)
    rows = {row.label: row.expected for row in forecast.rows}
    # 8 frames in real time are 8 / 0.7 at seven tenths of it.
    assert rows["Rise Frames"] == pytest.approx(8 / 0.7) and rows["Air Pace"] == 0.7
    kept = {row.label: row for row in mended(keyed(FLOATY), keep="flight").rows}
    assert kept["Airtime Frames"].expected == pytest.approx(kept["Airtime Frames"].before)


def test_rise_and_fall_are_asked_for_at_the_pace_that_was_asked_for():
    # 8 frames up and 12 down in real time, at seven tenths of it: 11.4 and 17.1, 28.6 in all.
    forecast = mended(keyed(replace(SOUND, fall=12)), keep="nothing", pace=0.7)
    rows = {row.label: row.expected for row in forecast.rows}
    assert rows["Rise Frames"] == pytest.approx(8 / 0.7)
    assert rows["Fall Frames"] == pytest.approx(12 / 0.7)
    assert rows["Airtime Frames"] == pytest.approx(20 / 0.7)


def test_what_is_keyed_after_a_track_ends_stays_as_far_on_as_half_a_stretch_leaves():
    # The jump ends 4 frames later, and a stretch keeps half of its frames: the 8 after the end become 4.
    assert _pin(np.array([10.0, 30.0]), start=30.0, moved=34.0, limit=np.inf) == 38.0
