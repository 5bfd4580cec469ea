"""Each finding has a shot that shows it, so that the manual's pictures show what their captions say."""

from pathlib import Path

import pytest
from leapwright.addon.shots.shot import read_shot
from leapwright.analysis import Settings
from leapwright.analysis.findings import FINDERS
from leapwright.analysis.shot import Extras, audit_reading

from .build import build
from .flawed import DRAWN, FLAWED


def test_every_finding_has_a_shot() -> None:
    codes = {find.__module__.rpartition(".")[2].replace("_", "-") for find in FINDERS}
    assert set(FLAWED) == codes


@pytest.mark.parametrize("code", DRAWN)
def test_the_shot_has_its_finding(code: str, tmp_path: Path) -> None:
    feet = "on" if code.startswith("contact") else None
    reading = read_shot(build(FLAWED[code], tmp_path), track="Brindle/root", extras=Extras(feet=feet))
    (jump,) = audit_reading(code, reading, Settings()).audits[0].jumps
    assert code in {finding.code for finding in jump.findings}
