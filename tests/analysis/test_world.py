"""World: kinds with their sources, and what makes no sense. tests/truth/test_tables.py has the gravities."""

import pytest
from leapwright.analysis import JUMPERS, SettingsError, World


def test_small_kinds_have_large_ratios() -> None:
    assert JUMPERS["person"] < JUMPERS["cat"] < JUMPERS["galago"] < JUMPERS["insect"] < JUMPERS["froghopper"]
    # Rat flea: 1.0 m/s within 0.75 ms (Bennet-Clark & Lucey 1967; from memory), R = a / g = 136.
    assert JUMPERS["insect"] == pytest.approx(1.0 / 0.75e-3 / 9.80665, rel=0.001)
    # Froghopper: 4 m/s within 1 ms; R = a / g = 408 (Burrows 2003, Nature 424:509).
    assert JUMPERS["froghopper"] == pytest.approx(4.0 / 1e-3 / 9.80665, rel=0.001)


@pytest.mark.parametrize(
    "wrong",
    [
        {"gravity": 0.0},
        {"gravity": -9.8},
        {"gravity": float("nan")},
        {"gravity": 1e5},
        {"step": 0},
        {"step": 1.5},
        {"kind": "dragon"},
    ],
)
def test_a_world_that_makes_no_sense_is_refused(wrong: dict) -> None:
    with pytest.raises(SettingsError):
        World(**wrong)
