"""Lengths and gravities as people write them."""

import pytest
from leapwright.analysis import SettingsError
from leapwright.analysis.units import gravity, meters_of

# Foot 0.3048 m and inch 0.0254 m exactly: NIST SP 811 (2008), appendix B.8 (from memory).
WRITTEN = [("5cm", 0.05), ("1.2m", 1.2), (".5 m", 0.5), ("12mm", 0.012), ("4ft", 1.2192), ("20in", 0.508),
           ("1ft6in", 0.4572), ("1 FT 6 IN", 0.4572), ("1m20cm", 1.2)]  # fmt: skip
NO_LENGTH = ["", "5", "cm", "-5cm", "0cm", "5 km", "1m2", "nan m", "1e3m", "٣cm", "9" * 400 + "m"]


@pytest.mark.parametrize(("text", "length"), WRITTEN)
def test_a_written_length_is_meters(text, length):
    assert meters_of(text) == pytest.approx(length, rel=1e-12)


@pytest.mark.parametrize("text", NO_LENGTH)
def test_what_is_no_length_is_refused(text):
    with pytest.raises(SettingsError, match="a length is a number above 0 with its unit"):
        meters_of(text)


# Moon: GM / R² = 4902.80 km³/s² / (1737.4 km)² = 1.62 m/s² (from memory).
@pytest.mark.parametrize(("value", "number"), [("moon", 1.62), ("9.81", 9.81), (9.81, 9.81), (3, 3.0)])
def test_a_gravity_is_the_name_of_a_world_or_a_number(value, number):
    assert gravity(value) == number


@pytest.mark.parametrize("value", ["pluto", "", True, None, [9.81], 0, -1.0, float("nan"), float("inf"), 10**400])
def test_what_is_no_gravity_is_refused(value):
    with pytest.raises(SettingsError, match=r"must be scene, one of mercury.*, or a number of m/s² above 0, not"):
        gravity(value, besides="scene")
