"""Find figures of a jump that are not finite numbers, where they are written and where findings say them."""

import math
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from leapwright.analysis.figures import flat
from leapwright.analysis.jump import Jump

WORD = re.compile(r"\b(nan|inf)\b")


def no_numbers(jump: Jump) -> list[str]:
    """Name each figure, and each sentence of a finding, that holds something other than a finite number."""
    odd = [f"no number: {name}" for name, figure in flat(jump).items() if not all(map(math.isfinite, _floats(figure)))]
    for finding in jump.findings:
        said = f"{finding.message} {finding.mend}"
        finite = all(map(math.isfinite, _floats((*finding.frames, finding.measured, finding.expected))))
        if WORD.search(said) or not finite:
            odd.append(f"no number: {finding.code}, {said}")
    return odd


def _floats(figure: object) -> Iterator[float]:
    if isinstance(figure, float):
        yield figure
    elif isinstance(figure, tuple):
        for part in figure:
            yield from _floats(part)
    elif is_dataclass(figure):
        for field in fields(figure):
            yield from _floats(getattr(figure, field.name))
