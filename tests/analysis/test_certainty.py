"""certainty: a probability in words, and what a doubtful jump may say."""

from dataclasses import replace

import pytest
from leapwright.analysis import Certainty, Settings
from leapwright.analysis.audit import Audit, judge
from leapwright.analysis.certainty import certainty_of

from tests.analysis.closed_form import Leap, measured


@pytest.mark.parametrize(
    ("probability", "word"), [(0.95, "sure"), (0.949, "likely"), (0.8, "likely"), (0.799, "doubtful")]
)
def test_a_probability_has_a_word(probability: float, word: str) -> None:
    assert certainty_of(probability) == word


def test_a_doubtful_jump_is_told_no_graver_than_a_note() -> None:
    sure = judge(measured(Leap(push_stretch=1.6)), Settings())
    doubtful = judge(replace(sure, certainty=Certainty.DOUBTFUL), Settings())
    assert max(finding.rank for finding in sure.findings) == 2
    assert {finding.code for finding in doubtful.findings} == {finding.code for finding in sure.findings}
    assert {finding.severity for finding in doubtful.findings} == {"note"}


def test_a_doubtful_jump_does_not_count_for_the_worst_of_its_track() -> None:
    jump = judge(measured(Leap(push_stretch=1.6)), Settings())
    audit = Audit("root", "file", 24.0, 1.0, 99.0, (), (jump,))
    assert audit.worst == 2
    assert replace(audit, jumps=(replace(jump, certainty=Certainty.DOUBTFUL),)).worst == -1
