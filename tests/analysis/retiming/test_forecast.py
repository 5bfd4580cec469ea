"""A forecast names the findings that go and come, and says in what an audit later differs from it."""

from dataclasses import replace

import pytest
from leapwright.analysis import Track, audit_track
from leapwright.analysis.errors import RetimeError
from leapwright.analysis.retiming.forecast import compare, differences
from leapwright.analysis.time_map import TimeMap

from tests.analysis.keyed_leap import FLOATY, LATE, REAL, SOUND, keyed

STAYS = TimeMap((19, 25), (19, 25))
FLOATS, SOUNDS = (audit_track(keyed(leap), REAL) for leap in (replace(FLOATY, rise=12, fall=12), SOUND))


def test_findings_that_go_and_come_are_named():
    forecast = compare(FLOATS, SOUNDS, 0, time_map=STAYS)
    assert forecast.goes == ("air-floaty", "push-short", "push-speed") and forecast.comes == ()
    back = compare(SOUNDS, FLOATS, 0, time_map=STAYS)
    assert back.comes == forecast.goes and back.goes == ()


def test_a_graver_finding_comes_and_a_milder_one_neither_goes_nor_comes():
    (jump,) = FLOATS.jumps
    milder = tuple(replace(f, severity="note") for f in jump.findings)
    noted = replace(FLOATS, jumps=(replace(jump, findings=milder),))
    assert compare(FLOATS, noted, 0, time_map=STAYS).comes == ()
    assert compare(noted, FLOATS, 0, time_map=STAYS).comes == tuple(f.code for f in jump.findings)


def test_what_happens_to_the_other_jumps_of_the_track_counts():
    two = audit_track(keyed(SOUND, replace(LATE, dip=8)), REAL)
    worse = replace(two, jumps=(two.jumps[0], replace(two.jumps[1], findings=())))
    assert "push-long" in compare(two, worse, 0, time_map=STAYS).goes
    with pytest.raises(RetimeError, match="another jump"):
        compare(two, replace(two, jumps=two.jumps[:1]), 0, time_map=STAYS)


def test_a_jump_that_is_gone_is_refused():
    still = audit_track(Track("still", 24, range(20), [[0, 0, 1]] * 20), REAL)
    with pytest.raises(RetimeError, match="no longer be found"):
        compare(SOUNDS, still, 0, time_map=STAYS)


def test_an_audit_agrees_with_its_forecast_or_the_difference_is_said():
    forecast = compare(FLOATS, SOUNDS, 0, time_map=STAYS)
    assert differences(forecast, SOUNDS) == ()
    said = differences(forecast, FLOATS)
    # Both take off at frame 25, and rise for 12 frames or for 8.
    assert any("apex at frame 37.0, not frame 33.0" in one for one in said)
    assert any(one.startswith("findings air-floaty") for one in said)
