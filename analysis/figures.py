"""The figures of a jump under the names they have in JSON and CSV: the one place where a jump is laid flat."""

from typing import Any

from .jump import Jump
from .phases import Event
from .quantity import Quantity

Figure = Event | float | int | str | bool | tuple[float, float] | tuple[str, ...] | None

FIGURE_PLACES = {
    "crouch": "crouch",
    "takeoff": "takeoff",
    "apex": "apex",
    "landing": "landing",
    "absorbed": "absorbed",
    "push_distance": "push.distance",
    "jump_height": "flight.height",
    "drop_height": "flight.drop",
    "absorb_distance": "absorb.distance",
    "push_ratio": "push.ratio",
    "absorb_ratio": "absorb.ratio",
    "push_frames": "push.frames",
    "push_frames_expected": "push.expected",
    "rise_frames": "flight.rise",
    "rise_frames_expected": "flight.rise_expected",
    "fall_frames": "flight.fall",
    "fall_frames_expected": "flight.fall_expected",
    "airtime_frames": "flight.airtime",
    "fitted_gravity": "flight.gravity",
    "air_pace": "flight.pace",
    "push_pace": "push.pace",
    "agreement": "push.agreement",
    "push_shape": "push.shape",
    "residual_rms": "shape.residual.rms",
    "top_quarter_share": "shape.top_share",
    "travel_speed": "travel.speed",
    "travel_spread": "travel.course.spread",
    "distance": "travel.distance",
    "body_weights": "push.body_weights",
    "push_excess": "push.excess",
    "rebounds": "push.rebounds",
    "push_speed": "push.end.speed",
    "push_peak_speed": "push.end.peak",
    "push_peak_frame": "push.end.peak_frame",
    "takeoff_speed": "flight.takeoff_speed",
    "landing_speed": "flight.landing_speed",
    "apex_skew": "shape.skew",
    "residual_worst": "shape.residual.worst",
    "residual_frames": "shape.residual.frames",
    "rise_free": "flight.free.rise",
    "fall_free": "flight.free.fall",
    "air_samples": "flight.samples",
    "noise": "flight.noise",
    "drawn_off": "shape.drawn.off",
    "drawn_off_frame": "shape.drawn.frame",
    "absorb_frames": "absorb.frames",
    "absorb_frames_expected": "absorb.expected",
    "absorb_excess": "absorb.excess",
    "stops_dead": "stops_dead",
    "travel_turn": "travel.course.turn",
    "travel_slowest": "travel.course.slowest",
    "travel_slowest_frames": "travel.course.slowest_frames",
    "travel_start_speed": "travel.course.start_speed",
    "travel_end_speed": "travel.course.end_speed",
    "travel_strays": "travel.course.strays",
    "name": "name",
    "source": "source",
    "follows": "follows",
    "fps": "fps",
    "gravity": "gravity",
    "kind": "kind",
    "size": "size",
    "push_ratio_most": "reach",
    "step": "step",
    "held": "held",
    "method": "method",
    "certainty": "certainty",
    "certainty_value": "certainty_value",
    "notes": "notes",
    "feet_off": "feet.off",
    "feet_on": "feet.on",
    "feet_slide": "feet.slide.distance",
    "feet_slide_frames": "feet.slide.frames",
    "feet_sink": "feet.sink.distance",
    "feet_sink_frames": "feet.sink.frames",
    "feet_noise": "feet.noise",
    "feet_below": "feet.below",
}
"""Where each name lies in a Jump. A Quantity gives its value under the name and its error under name_error."""

QUANTITY_NAMES = frozenset(
    (
        "push_distance", "jump_height", "drop_height", "absorb_distance", "push_ratio", "absorb_ratio",
        "push_frames", "push_frames_expected", "rise_frames", "rise_frames_expected", "fall_frames",
        "fall_frames_expected", "airtime_frames", "fitted_gravity", "air_pace", "push_pace", "agreement",
        "push_shape", "top_quarter_share", "travel_speed", "travel_spread", "distance", "push_excess",
        "push_speed", "apex_skew", "absorb_frames", "absorb_frames_expected", "absorb_excess", "travel_turn",
        "feet_off", "feet_on",
    )
)  # fmt: skip
"""The names that are quantities: they have an error, known or not."""


def flat(jump: Jump) -> dict[str, Figure]:
    """Give every figure of a jump under its flat name, values and errors; None: not known."""
    told: dict[str, Figure] = {}
    for name in FIGURE_PLACES:
        found = _at(jump, name)
        told[name] = found.value if isinstance(found, Quantity) else found
        if name in QUANTITY_NAMES:
            told[f"{name}_error"] = error_of(jump, name)
    return told


def value_of(jump: Jump, name: str) -> float | None:
    """Give the number that a flat name stands for; None where it is not known.

    Raises KeyError for a name that no figure has, TypeError for one that is no number.
    """
    found = _at(jump, name)
    value = found.value if isinstance(found, Quantity) else found
    if value is None or isinstance(value, float | int):
        return value
    raise TypeError(f"{name} is no number but {value!r}")


def error_of(jump: Jump, name: str) -> float | None:
    """Give one standard error of the quantity that a flat name stands for; None where it is not known."""
    found = _at(jump, name)
    return found.error if isinstance(found, Quantity) else None


def _at(jump: Jump, name: str) -> Quantity | Figure:
    found: Any = jump
    for part in FIGURE_PLACES[name].split("."):
        found = None if found is None else getattr(found, part)
    return found
