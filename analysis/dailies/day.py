"""A day: its document as rows in the order to look at them, with changes since an earlier day and notes."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from ..certainty import Certainty
from ..finding import SEVERITIES
from .compare import Change, Pair, compare_days
from .notes import ReviewNote, is_meant, notes_on
from .rows import RANK_CLEAN, RANK_DOUBTFUL, RANK_NO_JUMP, RANK_UNREADABLE, DayRow, day_rows

NO_VALUES: Mapping[str, Any] = MappingProxyType({})
TALLY = ((2.0, "to fix"), (1.0, "to check"), (0.0, "with a note"), (RANK_CLEAN, "fine"), (RANK_DOUBTFUL, "doubtful"),
         (RANK_UNREADABLE, "unreadable"), (RANK_NO_JUMP, "without a jump"))  # fmt: skip
"""What ranks are called where they are counted."""


def _figure(name: str) -> Callable[[DayRow], tuple[bool, float]]:
    """Return a key that puts what is not known last."""

    def key(row: DayRow) -> tuple[bool, float]:
        value = row.jump.get(name) if row.jump else None
        return value is None, value or 0.0

    return key


ORDERS: Mapping[str, Callable[[DayRow], Any] | None] = {
    "gravest": None, "shot": lambda row: row.label, "airtime": _figure("airtime_frames"),
    "height": _figure("jump_height"), "pace": _figure("air_pace"), "agreement": _figure("agreement"),
}  # fmt: skip
"""Ways to sort a day's rows; gravest is by finding, then by its size."""


@dataclass(frozen=True, slots=True, eq=False)
class Day:
    """A day's rows.

    document   the audit's, schema leapwright-audit/1
    rows       in order, those of a shot not always together
    pairs      by the key of a row, its change and its row of the earlier day; empty without one
    gone       rows of the earlier day that are no more
    notes      by the key of a row, what a reviewer said of it
    said       every note there is, found again or not: none is lost
    """

    document: Mapping[str, Any]
    rows: tuple[DayRow, ...]
    pairs: Mapping[str, Pair] = field(default_factory=lambda: NO_VALUES)
    gone: tuple[DayRow, ...] = ()
    notes: Mapping[str, ReviewNote] = field(default_factory=lambda: NO_VALUES)
    said: tuple[ReviewNote, ...] = ()

    def is_meant(self, row: DayRow, code: str) -> bool:
        """Say whether a finding of a row was said to be meant."""
        return is_meant(self.notes.get(row.key), code)

    def rank(self, row: DayRow) -> float:
        """Tell how soon to look at a row: as the row says, but what is meant does not count."""
        return _rank(row, self.is_meant)

    @property
    def worst(self) -> int:
        """Rank of the gravest finding that is not meant, of jumps that are sure or likely; -1 where there is none."""
        told = (row for row in self.rows if row.jump is not None and row.certainty != Certainty.DOUBTFUL)
        return max((int(self.rank(row)) for row in told), default=-1)

    @property
    def unreadable(self) -> bool:
        """Say whether a shot could not be read."""
        return any(row.rank == RANK_UNREADABLE for row in self.rows)

    def summary(self) -> str:
        """Count shots, jumps, and what is to be done, in one line."""
        ranks = Counter(self.rank(row) for row in self.rows)
        jumps = sum(row.jump is not None for row in self.rows)
        shots = len(self.document["shots"])
        parts = [f"{shots} shot{'s' * (shots != 1)}", f"{jumps} jump{'s' * (jumps != 1)}"]
        return ", ".join(parts + [f"{ranks[rank]} {word}" for rank, word in TALLY if ranks[rank]])


def day_of(
    document: Mapping[str, Any],
    *,
    earlier: Mapping[str, Any] | None = None,
    notes: Iterable[ReviewNote] = (),
    order: str = "gravest",
) -> Day:
    """Lay a document out as a day; order is one of ORDERS. Rows that are alike stay in the document's order."""
    rows, said = day_rows(document), tuple(notes)
    pairs = compare_days(rows, day_rows(earlier)) if earlier is not None else []
    on = notes_on(rows, said)
    key = ORDERS[order]
    if key is None:
        def key(row: DayRow) -> tuple[float, ...]:
            return _soonest(row, on)

    return Day(
        document,
        tuple(sorted(rows, key=key)),
        {pair.row.key: pair for pair in pairs if pair.row is not None},
        tuple(pair.earlier for pair in pairs if pair.change is Change.GONE and pair.earlier is not None),
        on,
        said,
    )


def _soonest(row: DayRow, notes: Mapping[str, ReviewNote]) -> tuple[float, ...]:
    """Return what sorts the gravest first, then the farthest off, then the one with most findings."""
    rank = _rank(row, lambda row, code: is_meant(notes.get(row.key), code))
    return -rank, -row.size, -len(row.findings)


def _rank(row: DayRow, meant: Callable[[DayRow, str], bool]) -> float:
    if row.rank < 0 or row.rank == RANK_UNREADABLE:
        return row.rank
    left = [finding for finding in row.findings if not meant(row, finding["code"])]
    return float(max((SEVERITIES.index(finding["severity"]) for finding in left), default=RANK_CLEAN))
