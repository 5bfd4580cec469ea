"""World: gravities and kinds with their sources, and what makes no sense."""

import pytest
import scipy.constants
from leapwright.analysis import GRAVITIES, KINDS, SettingsError, World


def test_earth_is_the_standard_acceleration() -> None:
    # scipy.constants carries CODATA's exact value.
    assert GRAVITIES["earth"] == scipy.constants.g


@pytest.mark.parametrize(
    ("body", "mass_times_g", "radius"),
    [
        # GM in km³/s² and equatorial radius in km, JPL Solar System Dynamics.
        ("mercury", 22031.87, 2439.7),
        ("venus", 324858.59, 6051.8),
        ("mars", 42828.37, 3396.19),
        ("jupiter", 126686531.9, 71492.0),
        ("saturn", 37931206.2, 60268.0),
        ("moon", 4902.80, 1737.4),
    ],
)
def test_gravity_is_that_of_mass_and_radius(body: str, mass_times_g: float, radius: float) -> None:
    # The two inputs are from memory; the table's values are the published ones, two decimals.
    assert GRAVITIES[body] == pytest.approx(1000 * mass_times_g / radius**2, abs=0.006)


def test_the_same_height_takes_a_moon_jumper_two_and_a_half_times_as_long() -> None:
    # 1 / sqrt(g): 2.457 on the Moon (g 1.624), 1.626 on Mars.
    assert (GRAVITIES["earth"] / GRAVITIES["moon"]) ** 0.5 == pytest.approx(2.457, abs=0.005)
    assert (GRAVITIES["earth"] / GRAVITIES["mars"]) ** 0.5 == pytest.approx(1.626, abs=0.001)


def test_small_kinds_have_large_ratios() -> None:
    assert KINDS["person"] < KINDS["cat"] < KINDS["galago"] < KINDS["insect"] < KINDS["froghopper"]
    # Rat flea: 1.0 m/s within 0.75 ms (Bennet-Clark & Lucey 1967; from memory), R = a / g = 136.
    assert KINDS["insect"] == pytest.approx(1.0 / 0.75e-3 / 9.80665, rel=0.005)
    # Froghopper: 4 m/s within 1 ms; R = a / g = 408 (Burrows 2003, Nature 424:509).
    assert KINDS["froghopper"] == pytest.approx(4.0 / 1e-3 / 9.80665, rel=0.025)


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
