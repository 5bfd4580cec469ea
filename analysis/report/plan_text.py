"""A plan as plain text for a terminal: events, what rounding costs, neighbors, a chart, the heights by frame."""

import math
import textwrap
from collections.abc import Iterator, Sequence

from ..planning.plan import Plan
from ..planning.timing import Timing
from .labels import counted, figure_text, frame_text

PLAN_COLUMNS = 100
CHART_ROWS, CHART_COLUMNS = 10, 84
"""Rows of the chart, and the most columns it takes."""
STEP_WORDS = {1: "ones", 2: "twos", 3: "threes", 4: "fours"}


def plan_text(plan: Plan) -> str:
    """Write a plan as a text of at most 100 columns, with a final newline."""
    blocks = (_head(plan), _events(plan), _forces(plan), _neighbors(plan), chart(plan), _poses(plan))
    lines = [line for block in blocks for line in (*block, "")]
    for note in plan.notes:
        lines += textwrap.wrap(f"Note: {note}", PLAN_COLUMNS, subsequent_indent="  ")
    return "\n".join(line.rstrip() for line in lines).rstrip("\n") + "\n"


def _head(plan: Plan) -> Iterator[str]:
    goal, step = plan.goal, plan.goal.world.step
    poses = STEP_WORDS.get(step, f"every {counted(step, 'frame')}")
    across = f", {goal.distance:.2f} m across" if goal.distance else ""
    yield (
        f"A jump of {plan.exact.height:.2f} m from a push of {plan.exact.push_distance:.2f} m{across}, "
        f"at {goal.fps:.6g} fps on {poses}"
    )
    pace = "" if goal.air_pace == 1.0 else f", played at an air pace of {goal.air_pace:g}"
    yield f"Gravity {goal.world.gravity:g} m/s²{pace}; heights above the takeoff"


def _events(plan: Plan) -> Iterator[str]:
    exact, timing = plan.exact, plan.timing
    spans = (
        ("", None, None),
        ("push", timing.push_frames, exact.push),
        ("rise", timing.rise_frames, exact.rise),
        ("fall", timing.fall_frames, exact.fall),
        ("absorb", timing.absorb_frames, exact.absorb),
    )
    yield f"{'event':<10}{'frame':>6}{'height':>10}    {'':<8}{'frames':>6}{'exact':>8}"
    for key, (name, frames, asked) in zip(plan.keys, spans, strict=True):
        span = f"{name:<8}{frames:>6}{asked:>8.2f}" if name else ""
        yield f"{key.event:<10}{key.frame:>6}{key.height:>8.2f} m    {span}"
    if abs(plan.apex_frame - plan.keys[2].frame) > 0.05:
        yield f"The arc's own top lies at frame {frame_text(plan.apex_frame)}, {exact.height:.2f} m"
    yield f"Airtime {counted(timing.airtime_frames, 'frame')} ({exact.airtime:.2f} exact)"


def _forces(plan: Plan) -> Iterator[str]:
    angle = math.degrees(plan.takeoff_angle)
    yield f"Push ratio {plan.push_ratio:.2f}: {plan.body_weights:.1f} body weights on average over the push distance"
    yield f"Takeoff {plan.takeoff_speed:.2f} m/s at {angle:.0f}° above level, landing {plan.landing_speed:.2f} m/s"
    yield from textwrap.wrap(f"Rounding to whole frames: {plan.rounding}", PLAN_COLUMNS, subsequent_indent="  ")


def _neighbors(plan: Plan) -> Iterator[str]:
    heads = ("push", "airtime", "air pace", "agreement", "height at this pace")
    yield f"{'timing':<24}" + "".join(f"{head:>{len(head) + 3}}" for head in heads)
    for name, timing in (("as planned", plan.timing), *plan.neighbors):
        yield f"{name!s:<24}" + "".join(
            f"{cell:>{len(head) + 3}}" for cell, head in zip(_cells(timing), heads, strict=True)
        )


def _cells(timing: Timing) -> tuple[str, ...]:
    return (
        str(timing.push_frames), str(timing.airtime_frames), figure_text(timing.air_pace),
        figure_text(timing.agreement), figure_text(timing.height_at_pace, " m"),
    )  # fmt: skip


def chart(plan: Plan) -> list[str]:
    """Draw heights against frames with letters: o for the five keys, · for the other poses."""
    every = math.ceil(len(plan.poses) / CHART_COLUMNS)
    keys = {key.frame for key in plan.keys}
    low = min(pose.height for pose in plan.poses)
    high = plan.exact.height
    rows = [[" "] * math.ceil(len(plan.poses) / every) for _ in range(CHART_ROWS)]
    for place, pose in enumerate(plan.poses):
        row = round((high - pose.height) / (high - low) * (CHART_ROWS - 1))
        if pose.frame in keys:
            rows[row][place // every] = "o"
        elif rows[row][place // every] == " ":
            rows[row][place // every] = "·"
    ground = round(high / (high - low) * (CHART_ROWS - 1))
    marks = {ground: "0.00 m", 0: f"{high:.2f} m", CHART_ROWS - 1: f"{low:.2f} m"}
    drawn = [f"{marks.get(number, ''):>9} │{''.join(row)}" for number, row in enumerate(rows)]
    return [*drawn, _axis(plan, every)]


def _axis(plan: Plan, every: int) -> str:
    """Return the frames of the keys under the chart, those that have room."""
    step, start, line = plan.goal.world.step * every, plan.keys[0].frame, ""
    for key in plan.keys:
        place = (key.frame - start) // step
        if len(line) <= place:
            line = f"{line:<{place}}{key.frame} "
    return f"{'frame':>9}  {line}"


def _poses(plan: Plan) -> list[str]:
    """Return heights and spacing, down the columns of three tables side by side."""
    events = {key.frame: key.event for key in plan.keys}
    cells = [
        f"{pose.frame:>6}{pose.height * 100.0:>8.1f}{pose.spacing * 100.0:>9.1f} {events.get(pose.frame, ''):<8}"
        for pose in plan.poses
    ]
    head = f"{'frame':>6}{'up, cm':>8}{'spacing':>9} {'':<8}"
    return _side_by_side(cells, head)


def _side_by_side(cells: Sequence[str], head: str) -> list[str]:
    tables = min(3, math.ceil(len(cells) / 8))
    rows = math.ceil(len(cells) / tables)
    lines = ["".join(cells[row + rows * table] for table in range(tables) if row + rows * table < len(cells))
             for row in range(rows)]  # fmt: skip
    return [head * tables, *lines]
