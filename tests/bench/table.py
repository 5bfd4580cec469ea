"""Print rows as a table of aligned columns."""

import sys
from collections.abc import Iterable, Sequence


def lines(head: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    """Return first column left, the others right, one line a row under the head."""
    table = [list(head), *map(list, rows)]
    widths = [max(len(row[i]) for row in table) for i in range(len(head))]
    return [
        "  ".join([row[0].ljust(widths[0]), *(c.rjust(w) for c, w in zip(row[1:], widths[1:], strict=True))])
        for row in table
    ]


def say(text: str) -> None:
    """Progress, on stderr, over the last one."""
    end = "\r" if sys.stderr.isatty() else "\n"
    print(f"{text:<60}", end=end, file=sys.stderr, flush=True)
