"""JSON as it is read from files that anyone may have written: each name once, no number that is none."""

import json
import math
from collections import Counter
from typing import Any

from .errors import SourceError

MOST_DIGITS = 400
"""More digits than a double can hold; Python itself stops at 4300."""


def parsed(text: str, *, most: float = math.inf) -> Any:
    """Parse a JSON text; numbers at or beyond ±most are refused, where it is given.

    Raises SourceError with what is wrong and its place.

    >>> parsed('{"fps": 24}')
    {'fps': 24}
    """

    def bounded(number: float) -> float:
        if not abs(number) < most:
            raise SourceError(f"it holds a number too large: {str(number)[:20]}")
        return number

    if not text.strip():
        raise SourceError("the file is empty")
    numbers: dict[str, Any] = {"parse_int": _whole}
    if math.isfinite(most):
        numbers = {"parse_int": lambda digits: bounded(_whole(digits)), "parse_float": lambda d: bounded(float(d))}
    try:
        return json.loads(text, object_pairs_hook=_unique, parse_constant=_refuse_constant, **numbers)
    except json.JSONDecodeError as error:
        raise SourceError(
            f"it is not JSON: {error.msg[:1].lower()}{error.msg[1:]} in line {error.lineno}, column {error.colno}"
        ) from None
    except RecursionError:
        raise SourceError("it is not JSON that can be read: its brackets are nested too deeply") from None


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    document = dict(pairs)
    if len(document) < len(pairs):
        times = Counter(key for key, _ in pairs)
        twice = next(key for key, count in times.items() if count > 1)
        raise SourceError(f'"{twice[:40]}" occurs twice')
    return document


def _refuse_constant(name: str) -> float:
    raise SourceError(f"it holds {name}; every number must be finite")


def _whole(digits: str) -> int:
    if len(digits) > MOST_DIGITS:
        raise SourceError(f"it holds a number of {len(digits)} digits, too large")
    return int(digits)
