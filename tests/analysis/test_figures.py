"""Figures: a jump laid flat keeps the names that leapwright-audit/1 has, whatever the parts are called."""

import pytest
from leapwright.analysis.figures import FIGURE_PLACES, QUANTITY_NAMES, error_of, flat, value_of
from leapwright.analysis.quantity import Quantity

from tests.analysis.closed_form import Leap, measured, pinned
from tests.analysis.shod import walked

NAMES = [
    "crouch", "takeoff", "apex", "landing", "absorbed", "push_distance", "jump_height", "drop_height",
    "absorb_distance", "push_ratio", "absorb_ratio", "push_frames", "push_frames_expected", "rise_frames",
    "rise_frames_expected", "fall_frames", "fall_frames_expected", "airtime_frames", "fitted_gravity",
    "fitted_gravity_error", "air_pace", "push_pace", "agreement", "push_shape", "residual_rms",
    "top_quarter_share", "travel_speed", "travel_spread", "distance", "push_distance_error",
    "jump_height_error", "drop_height_error", "absorb_distance_error", "push_ratio_error", "absorb_ratio_error",
    "push_frames_error", "push_frames_expected_error", "rise_frames_error", "rise_frames_expected_error",
    "fall_frames_error", "fall_frames_expected_error", "airtime_frames_error", "air_pace_error",
    "push_pace_error", "agreement_error", "push_shape_error", "top_quarter_share_error", "travel_speed_error",
    "travel_spread_error", "distance_error", "body_weights", "push_excess", "push_excess_error", "rebounds",
    "push_speed", "push_speed_error", "push_peak_speed", "push_peak_frame", "takeoff_speed", "landing_speed",
    "apex_skew", "apex_skew_error", "residual_worst", "residual_frames", "rise_free", "fall_free",
    "air_samples", "noise", "drawn_off", "drawn_off_frame", "absorb_frames", "absorb_frames_error",
    "absorb_frames_expected", "absorb_excess_error", "stops_dead", "travel_turn", "travel_turn_error",
    "travel_slowest", "travel_slowest_frames", "travel_start_speed", "travel_end_speed", "name", "source",
    "fps", "gravity", "kind", "step", "held", "method", "certainty", "certainty_value", "notes", "feet_off",
    "feet_off_error", "feet_on", "feet_on_error", "feet_slide", "feet_slide_frames", "feet_sink",
    "feet_sink_frames", "feet_noise", "feet_below",
]  # fmt: skip
"""What the first version of leapwright-audit/1 wrote of a jump, beside its findings: none of them may go."""


def test_no_name_of_the_schema_is_lost() -> None:
    assert not set(NAMES) - set(flat(measured()))


def test_a_fall_without_feet_has_the_same_names_and_nothing_in_those_it_cannot_know() -> None:
    fall, whole = flat(pinned(Leap(), crouch=None, absorbed=None)), flat(walked())
    assert list(fall) == list(whole)
    unknown = {name for name, value in fall.items() if value is None}
    assert {"push_frames", "push_frames_error", "absorb_ratio", "feet_slide", "agreement"} <= unknown
    assert not {name for name in unknown if not name.startswith(("push", "absorb", "feet"))} - {
        "crouch", "agreement", "agreement_error", "body_weights", "rebounds",
        "rise_free", "fall_free", "drawn_off", "drawn_off_frame",
    }  # fmt: skip


def test_each_name_finds_its_quantity() -> None:
    jump = walked()
    for name in QUANTITY_NAMES:
        value, error = value_of(jump, name), error_of(jump, name)
        assert isinstance(value, float) and isinstance(error, float), name
    assert value_of(jump, "push_frames") == jump.push.frames.value
    assert error_of(jump, "push_frames") == jump.push.frames.error
    assert error_of(jump, "takeoff_speed") is None


def test_only_quantities_are_listed_as_measured() -> None:
    jump = walked()
    for name, place in FIGURE_PLACES.items():
        found = jump
        for part in place.split("."):
            found = getattr(found, part) if found is not None else None
        assert found is None or isinstance(found, Quantity) == (name in QUANTITY_NAMES), name


def test_what_is_no_number_is_not_taken_for_one() -> None:
    with pytest.raises(TypeError, match="name is no number"):
        value_of(measured(), "name")
    with pytest.raises(KeyError):
        value_of(measured(), "beauty")
