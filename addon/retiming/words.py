"""A retiming in words: one line for a report, a table for the panel and the terminal, and what the times fit."""

from bpy.types import UnitSettings

from ...analysis.report.labels import UNKNOWN
from ...analysis.retiming.fit import DrawnFit
from ...analysis.retiming.forecast import Forecast
from ...analysis.retiming.placing import AFTER, BEFORE
from ..sidebar.figures import in_words, to_digits

NO_KEY_MOVES = "No key moves: the timing is as good as whole frames allow"
MISSED = 0.15
"""Distance from the air pace asked for, as a share of it, from which that pace is said to be missed (ours)."""


def moved_summary(forecast: Forecast) -> str:
    """Say in one line what moves and what it is good for."""
    before, after = forecast.before, forecast.after
    parts = []
    if before.push and after.push:
        parts.append(f"push {before.push.frames.value:.0f} to {after.push.frames.value:.0f}")
    parts.append(f"airtime {before.flight.airtime.value:.0f} to {after.flight.airtime.value:.0f} frames")
    if before.push and after.push:
        parts.append(f"agreement {before.push.agreement.value:.2f} to {after.push.agreement.value:.2f}")
    gone = f"; gone: {findings_named(forecast.goes)}" if forecast.goes else ""
    come = f"; new: {findings_named(forecast.comes)}" if forecast.comes else ""
    return f"{', '.join(parts)}{gone}{come}"


def remarks(forecast: Forecast) -> list[str]:
    """Say what the table does not: where poses leave their beat, and by how much the pace asked for is missed."""
    said = [
        f"Frames {one.first:g} to {one.last:g}: {_frames(one.fewest, one.most)} a pose, not {one.was:g}"
        for one in forecast.respaced
    ]
    pace = forecast.after.flight.pace
    if forecast.pace and pace and abs(pace.value / forecast.pace - 1.0) > MISSED:
        said.append(f"Air pace {pace.value:.2f}, not {forecast.pace:.2f}: the poses leave no other whole frames")
    if not forecast.rehearsed:
        said.append("Estimated from the path: it also follows what cannot be rehearsed")
    return said


def moves(forecast: Forecast) -> list[str]:
    """Say which events move from which frame to which, which stay, and what becomes of what follows.

    One sentence where no key moves.
    """
    events = [(move.event, *(to_digits(frame, 1) for frame in (move.old, move.new)))
              for move in forecast.moves if move.event not in (BEFORE, AFTER)]  # fmt: skip
    said = [f"{event.capitalize()} {old} to {new}" for event, old, new in events if old != new]
    stay = [f"{event} at {old}" for event, old, new in events if old == new]
    if not said:
        return [NO_KEY_MOVES]
    if stay:
        said.append(f"{', '.join(stay)} {'stays' if len(stay) == 1 else 'stay'}".capitalize())
    shift = forecast.time_map.shift
    pins = {move.event: move.old for move in forecast.moves}
    if shift:
        said.append(f"What follows moves by {'+' * (shift > 0.0)}{to_digits(shift, 1)}")
    elif AFTER in pins:
        said.append(f"What follows stays from {to_digits(pins[AFTER], 1)}")
    if BEFORE in pins:
        said.append(f"What comes before stays up to {to_digits(pins[BEFORE], 1)}")
    return said


def listed(said: list[str]) -> str:
    """Join phrases that each begin with a capital into one sentence."""
    return "; ".join((*said[:1], *(phrase[:1].lower() + phrase[1:] for phrase in said[1:])))


def _frames(fewest: float, most: float) -> str:
    low, high = f"{fewest:.3g}", f"{most:.3g}"
    return f"{low} {'frame' if low == '1' else 'frames'}" if low == high else f"{low} to {high} frames"


def table(forecast: Forecast) -> list[tuple[str, str, str, str]]:
    """Return the rows of label, before, after, and what the jump after asks for; those of which nothing is known left
    out.
    """
    rows: list[tuple[str, str, str, str]] = []
    for row in forecast.rows:
        before, after, expected = (_rounded(value, row.digits) for value in (row.before, row.after, row.expected))
        if row.before is not None or row.after is not None:
            rows.append((row.label, before, after, expected))
    return rows


def fit_sentence(fit: DrawnFit, units: UnitSettings) -> str:
    """Say which heights the times of a jump would fit, in the scene's units."""
    values = {"height": fit.height, "push": fit.push_distance, "both": fit.both}
    parts = []
    if fit.height is not None:
        from_push = " from a push of {both:.2f} m" if fit.both is not None else ""
        parts.append("In real time this airtime fits a jump of {height:.2f} m" + from_push)
    if fit.push_distance is not None:
        parts.append("with the height as it is, this push fits a crouch {push:.2f} m under the takeoff")
    return in_words("; ".join(parts), values, units) if parts else "Nothing can be said of what these times fit"


def findings_named(codes: tuple[str, ...]) -> str:
    """Name findings as the panel does."""
    return ", ".join(code.replace("-", " ") for code in codes)


def lines_of(track: str, number: int, forecast: Forecast) -> list[str]:
    """Say what a retiming does to a jump, counted from 0, in lines for a terminal."""
    rows = [(f"{track}, jump {number + 1}", "before", "after", "asked for"), *table(forecast)]
    widths = [max(len(row[n]) for row in rows) for n in range(4)]
    lines = ["  ".join((row[0].ljust(widths[0]), *(t.rjust(w) for t, w in zip(row[1:], widths[1:], strict=True))))
             for row in rows]  # fmt: skip
    lines += [line[:1].lower() + line[1:] for line in moves(forecast)]
    lines += [f"gone: {findings_named(forecast.goes)}"] * bool(forecast.goes)
    lines += [f"new: {findings_named(forecast.comes)}"] * bool(forecast.comes)
    return lines + [remark[:1].lower() + remark[1:] for remark in remarks(forecast)]


def _rounded(value: float | None, digits: int) -> str:
    return UNKNOWN if value is None else f"{value:.{digits}f}"
