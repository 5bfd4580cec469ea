"""House limits: a preset or a file, read strictly; every refusal names its line and its key."""

from dataclasses import fields
from pathlib import Path

import pytest
from leapwright.analysis import Limits, SettingsError
from leapwright.analysis.audit import judge
from leapwright.analysis.house import LIMIT_NAMES, PRESETS, changed, limits_from, read_limits
from leapwright.analysis.settings import Settings

from tests.analysis.closed_form import Leap, measured


def test_what_a_file_does_not_name_stays() -> None:
    limits = limits_from("gravity_band = 0.3\n")
    assert limits.gravity_band == 0.3
    assert changed(limits) == {"gravity_band": 0.3}
    assert limits_from("") == Limits()


def test_a_table_does_as_well_as_the_top() -> None:
    assert limits_from("[limits]\npush_check = 0.4\n") == limits_from("push_check = 0.4\n")


def test_every_limit_can_be_given() -> None:
    text = "\n".join(f"{field.name} = {getattr(Limits(), field.name)!r}" for field in fields(Limits))
    assert limits_from(text) == Limits()
    assert len(LIMIT_NAMES) == len(fields(Limits))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\ngravity_bend = 0.3\n", "line 2, gravity_bend: is no limit"),
        ("[limits]\npush_fix = 0.6\npush_fixed = 1\n", "line 3, push_fixed: is no limit"),
        ('arc_band = "wide"\n', "line 1, arc_band: must be a number, not 'wide'"),
        ("arc_band = true\n", "line 1, arc_band: must be a number, not True"),
        ("\n\narc_band = 0\n", "line 3, arc_band: limit arc_band must be a number above 0, not 0"),
        ("arc_band = inf\n", "line 1, arc_band: limit arc_band must be a number above 0, not inf"),
        ("fewest_air_samples = 4.5\n", "line 1, fewest_air_samples: must be a whole number, not 4.5"),
        ('preset = "wild"\n', "line 1, preset: must be one of believable, broad, narrow, not 'wild'"),
        ("arc_band = 0.1\n[limits]\narc_band = 0.2\n", "line 1, arc_band: stands both at the top and in [limits]"),
        ("limits = 3\n", "line 1, limits: must be a table of limits"),
        ("arc_band = \n", "(at line 1, column 12)"),
    ],
)
def test_what_is_wrong_is_refused_with_its_line_and_its_key(text: str, said: str) -> None:
    with pytest.raises(SettingsError) as refusal:
        limits_from(text)
    assert said in str(refusal.value)


def test_a_file_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    with pytest.raises(SettingsError, match=r"none.toml cannot be read"):
        read_limits(tmp_path / "none.toml")
    wrong = tmp_path / "wrong.toml"
    wrong.write_text("arc_bend = 1\n", encoding="utf-8")
    with pytest.raises(SettingsError, match=r"wrong.toml: line 1, arc_bend"):
        read_limits(wrong)
    wrong.write_bytes(b"\xff\xfe")
    with pytest.raises(SettingsError, match="not text in UTF-8"):
        read_limits(wrong)


def test_the_presets_stand_in_their_order() -> None:
    # A push 1.4 times as long as the flight asks for: over a quarter, under a half.
    jump = measured(Leap(push_stretch=1.4))
    told = {name: {f.code for f in judge(jump, Settings(limits=preset.limits)).findings}
            for name, preset in PRESETS.items()}
    assert "push-long" in told["believable"] & told["narrow"]
    assert "push-long" not in told["broad"]
    for name in ("gravity_band", "arc_band", "push_check", "push_check_short", "travel_band"):
        narrow, own, broad = (getattr(PRESETS[p].limits, name) for p in ("narrow", "believable", "broad"))
        assert narrow < own < broad
    assert all(preset.words and not preset.words.endswith(".") for preset in PRESETS.values())
