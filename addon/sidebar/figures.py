"""The figures of a jump as the panel shows them: measured beside expected, in the scene's own units."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

import bpy
from bpy.types import UnitSettings

from ...analysis.figures import value_of
from ...analysis.jump import Jump
from ...analysis.phases import Event
from ...analysis.quantity import Quantity
from ...analysis.report.labels import UNKNOWN
from ...analysis.retiming.forecast import Forecast
from ...analysis.units import METERS_PER_UNIT
from ...analysis.world import World

KEPT = "\N{NO-BREAK SPACE}"
SCENE_UNITS = {
    "METERS": (1.0, " m"),
    "CENTIMETERS": (0.01, " cm"),
    "MILLIMETERS": (0.001, " mm"),
    "FEET": (0.3048, "'"),
    "INCHES": (0.0254, '"'),
}
"""Meters and symbol of the units a scene can be fixed to; the others are left to Blender's own choice.
Foot and inch: international yard and pound agreement of 1959, exact."""
LENGTH_IN_TEMPLATE = re.compile(r"\{(\w+):\.\df\} (m/s|cm|m)(?!\w)")
"""A length or a speed in the template of a finding, a plan's remark or its refusal."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One row: its name, and up to two texts beside it; more: what is said after the name.

    brief: the first text in few letters, for where there is no room; empty where it has none
    """

    label: str
    measured: str
    expected: str = ""
    more: str = ""
    brief: str = ""

    @property
    def name(self) -> str:
        """Its name with what is said after it: "Push +1"."""
        return f"{self.label} {self.more}" if self.more else self.label


def first(jump: Jump) -> tuple[Figure, ...]:
    """Give push and air in frames, each beside what is asked: the two that the verdict speaks of."""
    push, flight = jump.push, jump.flight
    return (
        *([_timed("Push", push.frames, push.expected.value)] if push else []),
        _timed("Air", flight.airtime, flight.expected),
    )


def mended(forecast: Forecast) -> tuple[Figure, ...]:
    """Give push and air in frames as they are, and as a retiming makes them."""
    before, after = forecast.before, forecast.after
    air = Figure("Air", _frames(before.flight.airtime.value), _frames(after.flight.airtime.value))
    if before.push is None or after.push is None:
        return (air,)
    return Figure("Push", _frames(before.push.frames.value), _frames(after.push.frames.value)), air


def side_by_side(was: Jump, now: Jump, units: UnitSettings) -> tuple[Figure, ...]:
    """Give what matters of a jump as it was and as it is, side by side."""
    lengths = {"Jump Height": "jump_height", "Push Distance": "push_distance"}
    frames = {"Push": "push_frames", "Air": "airtime_frames"}
    plain = {"Push Ratio": "push_ratio", "Air Pace": "air_pace", "Agreement": "agreement"}
    rows = [(label, *(_frames(value_of(one, name)) for one in (was, now))) for label, name in frames.items()]
    rows += [
        (label, *(in_units(value_of(one, name), "LENGTH", units) for one in (was, now)))
        for label, name in lengths.items()
    ]
    rows += [(label, *(_plain(value_of(one, name)) for one in (was, now))) for label, name in plain.items()]
    rows.append(("Findings", str(len(was.findings)), str(len(now.findings))))
    return tuple(Figure(*row) for row in rows)


def timing(jump: Jump) -> tuple[Figure, ...]:
    """Give durations in frames, each beside what the jump's own heights ask for."""
    flight, push = jump.flight, jump.push
    return (
        _timed("Push", push.frames, push.expected.value) if push else Figure("Push", UNKNOWN, UNKNOWN),
        _timed("Rise", flight.rise, flight.rise_expected.value),
        _timed("Fall", flight.fall, flight.fall_expected.value),
        _timed("Airtime", flight.airtime, flight.expected),
    )


def _timed(label: str, measured: Quantity, expected: float) -> Figure:
    return Figure(label, _frames(measured.value, measured.error), _frames(expected), brief=_frames(measured.value))


def paces(jump: Jump, world: World, units: UnitSettings) -> tuple[Figure, ...]:
    """Give gravity and the paces beside what the world, and the flight, ask for."""
    return (
        Figure(
            "Gravity",
            in_units(value_of(jump, "fitted_gravity"), "ACCELERATION", units),
            in_units(world.gravity, "ACCELERATION", units),
        ),
        Figure("Air Pace", _plain(value_of(jump, "air_pace")), "1"),
        Figure("Push Pace", _plain(value_of(jump, "push_pace")), _plain(value_of(jump, "air_pace"))),
        Figure("Agreement", _plain(value_of(jump, "agreement")), "1"),
    )


def sizes(jump: Jump, units: UnitSettings) -> tuple[Figure, ...]:
    """Give lengths, ratios and travel; for the push ratio the largest measured for this kind of jumper."""
    return (
        Figure("Jump Height", in_units(value_of(jump, "jump_height"), "LENGTH", units)),
        Figure("Drop Height", in_units(value_of(jump, "drop_height"), "LENGTH", units)),
        Figure("Push Distance", in_units(value_of(jump, "push_distance"), "LENGTH", units)),
        Figure("Push Ratio", _plain(value_of(jump, "push_ratio")), f"{jump.reach:.3g}"),
        Figure("Absorb Distance", in_units(value_of(jump, "absorb_distance"), "LENGTH", units)),
        Figure("Absorb Ratio", _plain(value_of(jump, "absorb_ratio"))),
        Figure("Distance", in_units(value_of(jump, "distance"), "LENGTH", units)),
        Figure("Speed", in_units(value_of(jump, "travel_speed"), "VELOCITY", units)),
    )


def events(jump: Jump, units: UnitSettings) -> tuple[Figure, ...]:
    """Give the frame of each event with its error, and the height of the track there."""
    named = (
        ("Crouch", jump.crouch),
        ("Takeoff", jump.takeoff),
        ("Apex", jump.apex),
        ("Landing", jump.landing),
        ("Absorbed", jump.absorbed),
    )
    return tuple(
        Figure(label, *_event(event, units), more="(pinned)" if event.pinned else "")
        if event
        else Figure(label, UNKNOWN)
        for label, event in named
    )


def in_words(template: str, values: Mapping[str, object], units: UnitSettings) -> str:
    """Fill a template in, its lengths and speeds in the scene's units, each on one line with its unit."""

    def converted(match: re.Match[str]) -> str:
        if units.system == "METRIC" and units.length_unit == "METERS":
            return match[0].replace(" ", KEPT)
        quantity, size = ("VELOCITY", 1.0) if match[2] == "m/s" else ("LENGTH", METERS_PER_UNIT[match[2]])
        return in_units(size * float(str(values[match[1]])), quantity, units).replace(" ", KEPT)

    return LENGTH_IN_TEMPLATE.sub(converted, template).format(**values)


def span(jump: Jump) -> str:
    """Write the frames from takeoff to landing."""
    return f"{jump.takeoff.frame:.0f}–{jump.landing.frame:.0f}"


def height(jump: Jump, units: UnitSettings) -> str:
    """Write the jump height."""
    return in_units(value_of(jump, "jump_height"), "LENGTH", units)


def _event(event: Event, units: UnitSettings) -> tuple[str, str]:
    return _frames(event.frame, event.frame_error), in_units(event.height, "LENGTH", units)


def _frames(value: float | None, error: float | None = None) -> str:
    if value is None:
        return UNKNOWN
    text = to_digits(value, 1)
    spread = to_digits(error, 1) if error is not None else "0"
    return text if spread == "0" else f"{text} ±{spread}"


def _plain(value: float | None) -> str:
    return UNKNOWN if value is None else to_digits(value, 2)


def to_digits(value: float, digits: int) -> str:
    """Write a number to so many digits at most."""
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def in_units(value: float | None, quantity: str, units: UnitSettings) -> str:
    """Write meters, m/s or m/s² as the scene shows them: feet as feet, bare numbers without a unit system."""
    if value is None:
        return UNKNOWN
    if units.system == "NONE":
        return f"{value / units.scale_length:.3g}"
    if quantity == "LENGTH" and units.length_unit in SCENE_UNITS:
        meters, symbol = SCENE_UNITS[units.length_unit]
        return f"{to_digits(value / meters, 2 if abs(value) < 10.0 * meters else 1)}{symbol}"
    return bpy.utils.units.to_string(units.system, quantity, value, precision=3)
