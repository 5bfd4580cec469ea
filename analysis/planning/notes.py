"""What an animator should know of a plan: what is implausible in it, and what it rests on."""

from collections.abc import Iterator

from ..beat import counted
from ..limits import Limits
from ..world import reach
from .timing import Exact, Timing
from .wish import LIFT_RANGE, Wish

SAME_FRAMES = 0.05
"""Frames off by less are called exact."""


def notes_of(wish: Wish, exact: Exact, timing: Timing) -> Iterator[str]:
    """Give a sentence for each thing that is off with a plan, gravest first; without final periods."""
    limits = Limits()
    world, kind, ratio = wish.world, wish.world.kind, exact.height / exact.push_distance
    most = reach(kind, gravity=world.gravity, size=world.size or 1.0)
    if ratio > most:
        yield (
            f"it rises {exact.height:.2f} m from a push of {exact.push_distance:.2f} m, ratio {ratio:.1f}, "
            f"{ratio + 1.0:.1f} times its weight there on average, where the kind {kind} reaches {max(most, 0.0):.3g}"
            + (
                f": push {exact.height / most:.2f} m, or rise {exact.push_distance * most:.2f} m; a small creature "
                "may, a giant may not"
            )
            * (most > 0.0)
        )
    if abs(timing.agreement - 1.0) > limits.push_check:
        asked = exact.push * timing.airtime_frames / exact.airtime
        yield (
            f"the flight asks for a push of {counted(asked)}, and {counted(timing.push_frames)} is the nearest on "
            "whole frames: an audit may call it off"
        )
    samples = timing.airtime_frames // wish.world.step - 1
    if samples < limits.fewest_air_samples:
        yield (
            f"only {samples} pose{'' if samples == 1 else 's'} strictly in the air, and an arc is judged by "
            f"{limits.fewest_air_samples}: its gravity cannot be told from the drawings"
        )
    if exact.height < limits.smallest_hop:
        yield f"a rise under {limits.smallest_hop * 100.0:g} cm is a bob: an audit takes it for no jump"
    if not limits.slowest_pace <= timing.air_pace <= limits.fastest_pace:
        yield (
            f"an air pace of {timing.air_pace:.2f} lies outside {limits.slowest_pace:g} to {limits.fastest_pace:g}: "
            "it will not read as a flight"
        )
    if wish.zero == "standing":
        yield _standing(wish, exact)


def rounding_of(wish: Wish, exact: Exact, timing: Timing) -> str:
    """Say in a sentence what whole frames cost."""
    air, step = timing.airtime_frames, wish.world.step
    over = air - exact.airtime
    if wish.airtime_frames is not None and abs(over := air - wish.airtime_frames) >= SAME_FRAMES:
        wished = counted(wish.airtime_frames)
        return f"{counted(air)} in the air where {wished} were wished for; the height goes with them"
    if abs(over) < SAME_FRAMES:
        return f"nothing: {counted(air)} in the air is exact"
    pace = f"{counted(air)} in the air for {exact.airtime:.1f}: an air pace of {timing.air_pace:.2f} at this height"
    if timing.height_at_pace is None or abs(timing.air_pace / wish.air_pace - 1.0) < 1e-9:
        return pace
    return f"{pace}, or a height of {timing.height_at_pace:.2f} m at a pace of {wish.air_pace:g}" + (
        "" if step == 1 else f", on {step}s"
    )


def _standing(wish: Wish, exact: Exact) -> str:
    low, high = LIFT_RANGE
    said = (
        f"counted from standing: takeoff is taken {wish.lift * 100.0:.0f} cm higher, which leaves {exact.height:.2f} m "
        f"of jump height; adults' centers of mass are {low * 100.0:.0f} to {high * 100.0:.0f} cm higher"
    )
    return said if wish.height is None else f"{said}, so it may be {_range(wish.height, low, high)}"


def _range(height: float, low: float, high: float) -> str:
    return f"{max(height - high, 0.0):.2f} to {height - low:.2f} m"
