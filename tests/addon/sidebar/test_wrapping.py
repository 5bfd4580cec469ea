"""Sentences break into lines that fit."""

import pytest
from leapwright.addon.sidebar.wrapping import lines

SENTENCE = "The push lasts 6 frames, the flight asks for 10"


@pytest.mark.parametrize("width", [9, 12, 20, 47, 100])
def test_no_line_is_too_wide_and_no_word_is_lost(width):
    broken = lines(SENTENCE, width, len)
    assert all(len(line) <= width for line in broken)
    assert " ".join(broken) == SENTENCE
    assert len(broken) == 1 or all(
        len(f"{line} {after.split()[0]}") > width for line, after in zip(broken, broken[1:], strict=False)
    )


def test_a_word_too_long_for_a_line_is_cut():
    assert lines("a DEF-spine.006_master b", 8, len) == ["a", "DEF-spin", "e.006_ma", "ster b"]


def test_a_width_for_nothing_still_ends():
    assert lines("ab c", 0, len) == ["a", "b", "c"]


def test_nothing_has_no_lines():
    assert lines("  ", 10, len) == []


def test_a_number_stays_with_its_unit():
    assert lines("a fall of 0.55\N{NO-BREAK SPACE}m", 13, len) == ["a fall of", "0.55\N{NO-BREAK SPACE}m"]
