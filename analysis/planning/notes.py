"""What an animator should know of a plan: what is implausible in it, and what it rests on."""

from collections.abc import Iterator

from ..beat import frames_said
from ..limits import Limits
from ..world import reach
from .goal import LIFT_RANGE, Goal
from .remark import Remark
from .timing import Exact, Timing

SAME_FRAMES = 0.05
"""Frames: an answer that is off by less is called exact."""


def notes_of(goal: Goal, exact: Exact, timing: Timing) -> Iterator[Remark]:
    """Give a sentence for each thing that is off with a plan, gravest first."""
    limits = Limits()
    world, kind, ratio = goal.world, goal.world.kind, exact.height / exact.push_distance
    most = reach(kind, gravity=world.gravity, size=world.size or 1.0)
    if ratio > most:
        yield _beyond(exact, most, {"ratio": ratio, "weights": ratio + 1.0, "kind": kind, "most": max(most, 0.0)})
    if abs(timing.agreement - 1.0) > limits.push_check:
        asked = exact.push * timing.airtime_frames / exact.airtime
        yield Remark(
            "the flight asks for a push of {asked}, and {nearest} is the nearest on whole frames: an audit may call "
            "it off",
            {"asked": frames_said(asked), "nearest": frames_said(timing.push_frames)},
        )
    samples = timing.airtime_frames // goal.world.step - 1
    if samples < limits.fewest_air_samples:
        yield Remark(
            "only {poses} strictly in the air, and an arc is judged by {fewest}: its gravity cannot be told from the "
            "drawings",
            {"poses": f"{samples} pose{'' if samples == 1 else 's'}", "fewest": limits.fewest_air_samples},
        )
    if exact.height < limits.smallest_hop:
        yield Remark(
            "a rise under {hop:.0f} cm is a bob: an audit takes it for no jump", {"hop": limits.smallest_hop * 100.0}
        )
    if not limits.slowest_pace <= timing.air_pace <= limits.fastest_pace:
        yield Remark(
            "an air pace of {pace:.2f} lies outside {slowest:g} to {fastest:g}: it will not read as a flight",
            {"pace": timing.air_pace, "slowest": limits.slowest_pace, "fastest": limits.fastest_pace},
        )
    if goal.zero == "standing":
        yield _standing(goal, exact)


def rounding_of(goal: Goal, exact: Exact, timing: Timing) -> Remark:
    """Say what whole frames cost."""
    air, step = timing.airtime_frames, goal.world.step
    values: dict[str, object] = {"frames": frames_said(air)}
    over = air - exact.airtime
    if goal.airtime_frames is not None and abs(over := air - goal.airtime_frames) >= SAME_FRAMES:
        asked: dict[str, object] = {"asked": frames_said(goal.airtime_frames)}
        return Remark("{frames} in the air where {asked} were asked for; the height goes with them", values | asked)
    if abs(over) < SAME_FRAMES:
        return Remark("nothing: {frames} in the air is exact", values)
    pace = "{frames} in the air for {exact:.1f}: an air pace of {pace:.2f} at this height"
    values |= {"exact": exact.airtime, "pace": timing.air_pace}
    if timing.height_at_pace is None or abs(timing.air_pace / goal.air_pace - 1.0) < 1e-9:
        return Remark(pace, values)
    values |= {"height": timing.height_at_pace, "asked": goal.air_pace, "step": step}
    on = "" if step == 1 else ", on {step}s"
    return Remark(f"{pace}, or a height of {{height:.2f}} m at a pace of {{asked:g}}{on}", values)


def _beyond(exact: Exact, most: float, values: dict[str, object]) -> Remark:
    """Say what of a plan is more than the kind of jumper can do, and what it could."""
    said = (
        "it rises {height:.2f} m from a push of {push:.2f} m, ratio {ratio:.1f}, {weights:.1f} times its weight there "
        "on average, where the kind {kind} reaches {most:.3g}"
    )
    values |= {"height": exact.height, "push": exact.push_distance}
    if most <= 0.0:
        return Remark(said, values)
    values |= {"deeper": exact.height / most, "lower": exact.push_distance * most}
    way_out = ": push {deeper:.2f} m, or rise {lower:.2f} m; a small creature may, a giant may not"
    return Remark(said + way_out, values)


def _standing(goal: Goal, exact: Exact) -> Remark:
    low, high = LIFT_RANGE
    said = (
        "counted from standing: takeoff is taken {lift:.0f} cm higher, which leaves {height:.2f} m of jump height; "
        "adults' centers of mass are {low:.0f} cm to {high:.0f} cm higher"
    )
    values: dict[str, object] = {"lift": goal.lift * 100.0, "height": exact.height}
    values |= {"low": low * 100.0, "high": high * 100.0}
    if goal.height is None:
        return Remark(said, values)
    values |= {"least": max(goal.height - high, 0.0), "most": goal.height - low}
    return Remark(f"{said}, so it may be {{least:.2f}} m to {{most:.2f}} m", values)
