"""Brindle's hooves stay planted to a micrometer. Reading them changes nothing, except in shots of poses alone."""

from pathlib import Path

import pytest
from leapwright.addon.shots.shot import read_shot
from leapwright.analysis import Settings
from leapwright.analysis.shot import Extras, audit_reading

from .build import build
from .shots import SHOTS, Shot

KEPT = [shot for shot in SHOTS if shot.drawn != "poses"]


@pytest.mark.parametrize("shot", KEPT, ids=lambda shot: shot.name)
def test_hooves_that_go_with_the_body_change_nothing(shot: Shot, tmp_path: Path) -> None:
    reading = read_shot(build(shot, tmp_path), track="Brindle/root", extras=Extras(feet="on"))
    jumps = audit_reading(shot.name, reading, Settings()).audits[0].jumps
    assert [{f.code: f.severity for f in jump.findings} for jump in jumps] == [dict(codes) for codes in shot.findings]
    for jump, built in zip(jumps, shot.motion().jumps, strict=True):
        assert jump.feet.off.value == pytest.approx(built.takeoff, abs=0.5)
        assert jump.feet.on.value == pytest.approx(built.landing, abs=0.25)
        assert jump.feet.slide.distance < 1e-4 and jump.feet.sink.distance < 1e-4


def test_hooves_that_the_host_s_own_handles_move_are_told(tmp_path: Path) -> None:
    (shot,) = [shot for shot in SHOTS if shot.drawn == "poses"]
    reading = read_shot(build(shot, tmp_path), track="Brindle/root", extras=Extras(feet="on"))
    (jump,) = audit_reading(shot.name, reading, Settings()).audits[0].jumps
    assert {finding.code for finding in jump.findings} >= {"contact-slides", "contact-sinks"}
