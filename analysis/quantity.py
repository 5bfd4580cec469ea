"""Quantity: one measured value with its standard error and its unit."""

from dataclasses import dataclass
from enum import StrEnum


class Unit(StrEnum):
    """The units that jumps are measured in; NONE is that of a ratio."""

    METERS = "m"
    FRAMES = "frames"
    SPEED = "m/s"
    ACCELERATION = "m/s²"
    RADIANS = "rad"
    NONE = ""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A measured value and one standard error of it, both in the same unit.

    What cannot be known has no Quantity: it is None.

    >>> Quantity(6.2, 0.3, Unit.FRAMES)
    Quantity(value=6.2, error=0.3, unit=<Unit.FRAMES: 'frames'>)
    """

    value: float
    error: float
    unit: Unit


def in_meters(value: float, error: float) -> Quantity:
    """Make a length, m."""
    return Quantity(value, error, Unit.METERS)


def in_frames(value: float, error: float) -> Quantity:
    """Make a duration, or a place in time, in frames."""
    return Quantity(value, error, Unit.FRAMES)


def in_speed(value: float, error: float) -> Quantity:
    """Make a speed, m/s."""
    return Quantity(value, error, Unit.SPEED)


def in_radians(value: float, error: float) -> Quantity:
    """Make an angle, radians."""
    return Quantity(value, error, Unit.RADIANS)


def as_ratio(value: float, error: float) -> Quantity:
    """Make a ratio, a share or a pace: a number without a unit."""
    return Quantity(value, error, Unit.NONE)
