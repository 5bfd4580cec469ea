"""push-beyond: said when, and only when, the push ratio is above what the kind of jumper reaches."""

import pytest
from leapwright.analysis import World

from tests.analysis.closed_form import Leap, codes
from tests.analysis.findings.one import only


@pytest.mark.parametrize(
    ("kind", "ratio", "told"),
    [
        ("person", 1.55, False),
        ("person", 1.65, True),
        ("cat", 3.9, False),
        ("cat", 4.1, True),
        ("galago", 13.5, False),
        ("galago", 14.5, True),
        ("insect", 395.0, False),
        ("insect", 405.0, True),
    ],
)
def test_each_kind_has_its_own_ceiling(kind: str, ratio: float, told: bool) -> None:
    assert ("push-beyond" in codes(Leap(height=2.0, push=2.0 / ratio), World(kind=kind))) is told


def test_it_is_a_note_with_the_body_weights() -> None:
    finding = only("push-beyond", Leap(height=0.9, push=0.3))
    assert finding.severity == "note"
    # R = 3, R + 1 = 4 body weights (OpenStax College Physics 2e, problem 4.46: 0.300 m and 0.900 m).
    assert finding.message.startswith("A push of 4.0 body weights on average")


def test_a_ratio_known_too_loosely_is_not_told() -> None:
    assert "push-beyond" not in codes(Leap(height=0.6, push=0.6 / 1.8, error=0.5))
