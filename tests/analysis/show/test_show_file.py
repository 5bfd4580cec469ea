"""The show file is read strictly; what it refuses it says with line and key."""

from pathlib import Path

import pytest
from leapwright.analysis import SettingsError
from leapwright.analysis.show.show_file import find_show, read_show

TERN_QUAY = """\
# The show's own settings.
show = "Tern Quay"
skip = ["*_wip", "old/*"]
gravity = "earth"
smallest_hop = "5cm"

[tracks]
Brindle = "root"
"Moss*" = "com"

[limits]
gravity_band = 0.3  # looser

[shots."tq13*"]
gravity = "moon"
limits.push_fix = 0.6

[shots.tq010_barge_hop]
kind = 'cat'
tracks = { Brindle = "com" }
"""


def written(folder: Path, text: str) -> Path:
    path = folder / "leapwright.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_show_file_gives_its_rules_with_their_lines(tmp_path):
    show = read_show(written(tmp_path, TERN_QUAY))
    assert (show.name, show.skip) == ("Tern Quay", ("*_wip", "old/*"))
    top, moon, hop = show.rules
    assert top.pattern == "" and top.values["gravity"] == 9.80665 and top.values["smallest_hop"] == 0.05
    assert top.values["tracks"] == {"Brindle": "root", "Moss*": "com"} and top.values["limits"] == {"gravity_band": 0.3}
    assert top.lines == {"show": 2, "skip": 3, "gravity": 4, "smallest_hop": 5, "tracks": 7, "limits": 11}
    assert (moon.pattern, moon.values["gravity"], moon.values["limits"]) == ("tq13*", 1.62, {"push_fix": 0.6})
    assert moon.lines["gravity"] == 15
    assert (hop.pattern, hop.values["kind"], hop.lines["kind"]) == ("tq010_barge_hop", "cat", 19)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('show = "x"\ngravty = "moon"\n', "line 2, gravty: is not known; there are gravity, kind, "),
        ('\n\ngravity = "pluto"\n', "line 3, gravity: must be scene, one of mercury"),
        ("gravity = -1\n", "line 1, gravity: must be scene, one of mercury"),
        ("gravity = true\n", "line 1, gravity: must be scene"),
        ("step = 1.5\n", "line 1, step: must be a whole number of frames, not 1.5"),
        ("smallest_hop = 5\n", 'line 1, smallest_hop: must be a length with its unit, such as "5cm", not 5'),
        ('[limits]\npush_fix = 0.4\ngravity_bend = 1\n', "line 3, limits.gravity_bend: is not known here"),
        ("[limits]\n\npush_fix = 0\n", "line 3, limits.push_fix: must be a number above 0, not 0"),
        ('[tracks]\nBrindle = 3\n', "line 2, tracks.Brindle: must be the name of a bone"),
        ('[shots."tq1*"]\nkind = "dragon"\n', "line 2, shots.tq1*.kind: must be one of person, cat"),
        ('[shots."tq1*"]\nshow = "x"\n', "line 2, shots.tq1*.show: is not known; there are gravity"),
        ('[shots]\n"tq1*" = 3\n', "line 2, tq1*: must be a table of settings"),
        ("skip = true\n", "line 1, skip: must be a list of patterns"),
        ('kind = "cat"\nkind = "person"\n', "Cannot overwrite a value (at line 2"),
        ("kind = cat\n", "Invalid value (at line 1"),
    ],
)
def test_what_it_does_not_take_is_refused_with_line_and_key(tmp_path, text, said):
    path = written(tmp_path, text)
    with pytest.raises(SettingsError) as refusal:
        read_show(path)
    assert str(refusal.value).startswith(str(path)) and said in str(refusal.value)


def test_the_nearest_show_file_upward_counts(tmp_path):
    inner = tmp_path / "show" / "tq" / "day"
    inner.mkdir(parents=True)
    assert find_show(inner / "tq010.blend") is None
    outer = written(tmp_path / "show", "")
    assert find_show(inner / "tq010.blend") == find_show(inner) == outer
    nearer = written(tmp_path / "show" / "tq", "")
    assert find_show(inner / "tq010.blend") == nearer


def test_a_file_that_is_no_text_is_refused(tmp_path):
    path = tmp_path / "leapwright.toml"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(SettingsError, match="not text in UTF-8"):
        read_show(path)
