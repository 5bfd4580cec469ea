"""JSON of any origin: what is wrong is said, with its place; numbers are finite."""

import json

import pytest
from leapwright.analysis.errors import SourceError
from leapwright.analysis.json_text import parsed


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "the file is empty"),
        ('{"fps": }', "it is not JSON: expecting value in line 1, column 9"),
        ('{"fps": 24, "fps": 25}', '"fps" occurs twice'),
        ('{"fps": NaN}', "it holds NaN; every number must be finite"),
        ("[" * 100_000, "it is not JSON that can be read: its brackets are nested too deeply"),
        ("9" * 5000, "it holds a number of 5000 digits, too large"),
        ("[1e999]", "it holds a number too large: inf"),
        ("[" + "9" * 350 + "]", f"it holds a number too large: {'9' * 20}"),
        ("[1e6]", "it holds a number too large: 1000000.0"),
    ],
)
def test_what_is_wrong_is_said(text: str, said: str) -> None:
    with pytest.raises(SourceError) as refusal:
        parsed(text, most=1e6)
    assert str(refusal.value) == said


def test_what_is_right_is_read_as_pythons_own_reader_does() -> None:
    text = '{"a": [1, -2.5e3, true, null, "é"], "b": {}}'
    assert parsed(text) == parsed(text, most=1e6) == json.loads(text)
