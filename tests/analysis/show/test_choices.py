"""What holds for a shot: the call, then the show's rules, then defaults; each with its source."""

from leapwright.analysis import Limits
from leapwright.analysis.show.choices import choices, settings_from, skipped
from leapwright.analysis.show.show_file import read_show

from .test_show_file import TERN_QUAY, written


def chosen(tmp_path, name, **given):
    return choices(tmp_path / name, read_show(written(tmp_path, TERN_QUAY)), given)


def test_without_a_show_file_there_are_defaults_and_what_the_call_says(tmp_path):
    found = choices(tmp_path / "tq010.blend", None, {"kind": "cat", "step": None})
    assert (found["kind"].value, found["kind"].source) == ("cat", "--kind")
    assert (found["step"].value, found["step"].source) == (1, "default")


def test_a_shots_own_rule_wins_over_the_shows_and_the_call_over_both(tmp_path):
    assert chosen(tmp_path, "tq020.blend")["gravity"].source == "leapwright.toml, line 4"
    moon = chosen(tmp_path, "tq130_moon.blend")["gravity"]
    assert (moon.value, moon.source) == (1.62, 'leapwright.toml, line 15, [shots."tq13*"]')
    mars = chosen(tmp_path, "tq130_moon.blend", gravity=3.71)["gravity"]
    assert (mars.value, mars.source) == (3.71, "--gravity")


def test_tables_of_a_shot_add_to_those_of_the_show(tmp_path):
    settings = settings_from(chosen(tmp_path, "tq130_moon.blend"))
    assert (settings.limits.gravity_band, settings.limits.push_fix) == (0.3, 0.6)
    assert settings.limits.push_check == Limits().push_check and settings.limits.smallest_hop == 0.05
    tracks = chosen(tmp_path, "tq010_barge_hop.blend")["tracks"].value
    assert tracks == {"Brindle": "com", "Moss*": "com"}


def test_limits_of_the_call_win_one_by_one(tmp_path):
    found = chosen(tmp_path, "tq130_moon.blend", limits={"push_fix": 0.7})
    assert found["limits"].value == {"gravity_band": 0.3, "push_fix": 0.7}


def test_shots_to_skip_are_named_by_name_or_by_path(tmp_path):
    show = read_show(written(tmp_path, TERN_QUAY + '\n[shots."tq9*"]\nskip = true\n'))
    assert skipped(tmp_path / "tq020_wip.blend", show) == 'leapwright.toml, skip = "*_wip"'
    assert skipped(tmp_path / "old" / "tq020.blend", show)
    assert skipped(tmp_path / "tq900.blend", show) == 'leapwright.toml, line 23, [shots."tq9*"]'
    assert not skipped(tmp_path / "tq020.blend", show) and not skipped(tmp_path / "tq020.blend", None)
