"""Work that is done a step at a time, so that a window can draw in between: a generator that returns what was made."""

from collections.abc import Generator
from typing import TypeVar

Made = TypeVar("Made")


def finished(steps: Generator[None, None, Made]) -> Made:
    """Take all steps at once; return what comes of them.

    >>> def counted():
    ...     yield
    ...     return 2
    >>> finished(counted())
    2
    """
    while True:
        try:
            next(steps)
        except StopIteration as end:
            made: Made = end.value
            return made
