"""A retiming in words: one line for a report, a table for the panel and the terminal, and what the times fit."""

from bpy.types import UnitSettings

from ...analysis.retiming.forecast import Forecast
from ...analysis.retiming.retime import Fit
from ..sidebar.figures import in_words

UNKNOWN = "–"
MISSED = 0.15
"""Share of the air pace asked for by which it is said to be missed (ours)."""


def summary(forecast: Forecast) -> str:
    """Say in one line what moves and what it is good for."""
    before, after = forecast.before, forecast.after
    parts = []
    if before.push_frames is not None and after.push_frames is not None:
        parts.append(f"push {before.push_frames:.0f} to {after.push_frames:.0f}")
    parts.append(f"airtime {before.airtime_frames:.0f} to {after.airtime_frames:.0f} frames")
    if before.agreement and after.agreement:
        parts.append(f"agreement {before.agreement:.2f} to {after.agreement:.2f}")
    gone = f"; gone: {named(forecast.goes)}" if forecast.goes else ""
    come = f"; new: {named(forecast.comes)}" if forecast.comes else ""
    return f"{', '.join(parts)}{gone}{come}"


def remarks(forecast: Forecast) -> list[str]:
    """Say what the table does not: where poses leave their beat, and by how much the pace asked for is missed."""
    said = [
        f"Frames {one.first:g} to {one.last:g}: {_frames(one.fewest, one.most)} a pose, not {one.was:g}"
        for one in forecast.respaced
    ]
    pace = forecast.after.air_pace
    if forecast.pace != 1.0 and pace and abs(pace / forecast.pace - 1.0) > MISSED:
        said.append(f"Air pace {pace:.2f}, not {forecast.pace:.2f}: the poses leave no other whole frames")
    return said


def _frames(fewest: float, most: float) -> str:
    low, high = f"{fewest:.3g}", f"{most:.3g}"
    return f"{low} {'frame' if low == '1' else 'frames'}" if low == high else f"{low} to {high} frames"


def table(forecast: Forecast) -> list[tuple[str, str, str, str]]:
    """Rows of label, before, after, and what the jump after asks for; those of which nothing is known left out."""
    rows = []
    for row in forecast.rows:
        digits = 1 if row.label.endswith("Frames") else 2
        texts = [_rounded(value, digits) for value in (row.before, row.after, row.expected)]
        if row.before is not None or row.after is not None:
            rows.append((row.label, *texts))
    return rows


def fit_sentence(fit: Fit, units: UnitSettings) -> str:
    """Say which heights the times of a jump would fit, in the scene's units."""
    template, values = [], {"height": fit.height, "push": fit.push_distance, "both": fit.both}
    if fit.height is not None:
        template.append("In real time this airtime fits a jump of {height:.2f} m")
        template.append("from a push of {both:.2f} m" if fit.both is not None else "")
    if fit.push_distance is not None:
        template.append("; with the height as it is, this push fits a crouch {push:.2f} m under the takeoff")
    text = " ".join(part for part in template if part).replace(" ;", ";")
    return in_words(text, values, units) if text else "Nothing can be said of what these times fit"


def named(codes: tuple[str, ...]) -> str:
    """Name findings as the panel does."""
    return ", ".join(code.replace("-", " ") for code in codes)


def _rounded(value: float | None, digits: int) -> str:
    return UNKNOWN if value is None else f"{value:.{digits}f}"
