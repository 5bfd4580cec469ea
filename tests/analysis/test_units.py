"""Lengths as people write them."""

import pytest
from leapwright.analysis import SettingsError
from leapwright.analysis.units import meters_of

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
