"""Limits: numbers, each above zero, and a house's own in their place."""

from dataclasses import fields, replace

import pytest
from leapwright.analysis import Limits, SettingsError
from leapwright.analysis.audit import judge
from leapwright.analysis.settings import Settings

from tests.analysis.closed_form import Leap, measured


@pytest.mark.parametrize("name", [field.name for field in fields(Limits)])
@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_a_limit_that_is_no_number_above_zero_is_refused_by_name(name: str, value: float) -> None:
    with pytest.raises(SettingsError, match=name):
        Limits(**{name: value})


def test_a_house_with_narrower_limits_is_told_more() -> None:
    jump = measured(Leap(push_stretch=1.2))
    assert not judge(jump, Settings()).findings
    strict = Settings(limits=replace(Limits(), push_check=0.1, frames_band=0.5))
    assert [finding.code for finding in judge(jump, strict).findings] == ["push-long"]


def test_the_bands_stand_in_their_order() -> None:
    limits = Limits()
    assert limits.push_check < limits.push_fix
    assert limits.travel_band < limits.travel_band_root
    assert limits.shape_least < 1 < limits.shape_most
    assert limits.absorb_stiff < 1 < limits.absorb_mushy
    assert limits.gravity_fix_under < 1 / (1 + limits.gravity_band) < 1 + limits.gravity_band < limits.gravity_fix_over
