"""Small pictures as SVG: values to whole pixels, and paths as short as the format allows."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from .labels import printable


@dataclass(frozen=True, slots=True)
class PixelScale:
    """Takes values from low to high to pixels from start to end."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, value: float) -> float:
        """Return the pixel of a value, not rounded."""
        return self.start + (value - self.low) / ((self.high - self.low) or 1.0) * (self.end - self.start)


def line(points: Sequence[tuple[float, float]]) -> str:
    """Return a path through points, in relative whole pixels: rounding does not add up.

    >>> line([(1.2, 2.0), (4.0, 1.0), (4.1, 1.2)])
    'M1 2l3-1'
    """
    (x, y), *rest = [(round(x), round(y)) for x, y in points]
    drawn, steps = f"M{x} {y}", []
    for to_x, to_y in rest:
        if to_x != x or to_y != y:
            steps += [to_x - x, to_y - y]
            x, y = to_x, to_y
    return f"{drawn}l{_numbers(steps)}" if steps else drawn


def stairs(points: Sequence[tuple[float, float]]) -> str:
    """Return a path for held values: level to the next point, then up or down to it.

    >>> stairs([(1, 2), (4, 1)])
    'M1 2H4V1'
    """
    (x, y), *rest = [(round(x), round(y)) for x, y in points]
    return f"M{x} {y}" + "".join(f"H{x}V{y}" for x, y in rest)


def dots(points: Sequence[tuple[float, float]]) -> str:
    """Return a dot a point, drawn by the round ends of strokes without length.

    >>> dots([(1, 2), (4, 1)])
    'M1 2h0m3-1h0'
    """
    whole = [(round(x), round(y)) for x, y in points]
    steps = [(b[0] - a[0], b[1] - a[1]) for a, b in zip(whole, whole[1:], strict=False)]
    return f"M{whole[0][0]} {whole[0][1]}h0" + "".join(f"m{_numbers(step)}h0" for step in steps)


def path(kind: str, drawn: str) -> str:
    """Return a path of a class."""
    return f'<path class={kind} d="{drawn}"/>'


def text(x: float, y: float, words: str, *, anchor: str = "", kind: str = "") -> str:
    """Return words at a point; anchor: "m" for the middle, "e" for the end; else they start there."""
    kinds = " ".join(filter(None, (kind, anchor)))
    named = f' class="{kinds}"' if " " in kinds else f" class={kinds}" * bool(kinds)
    return f"<text{named} x={x:.0f} y={y:.0f}>{escape(printable(words))}</text>"


def picture(width: float, height: float, inside: Sequence[str], *, told: str, kind: str) -> str:
    """Return a picture of a class, with what is told of it where it is not seen."""
    return (
        f'<svg class={kind} viewBox="0 0 {width:.0f} {height:.0f}" role=img aria-label="{escape(printable(told))}">'
        f"{''.join(inside)}</svg>"
    )


def _numbers(values: Sequence[int]) -> str:
    """Return the whole numbers with as little between them as the path grammar needs (SVG 1.1, 8.3.9)."""
    return " ".join(map(str, values)).replace(" -", "-")
