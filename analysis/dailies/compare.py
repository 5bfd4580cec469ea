"""Two days of one show compared: each jump better, worse, the same or new, and those that are gone.

Shots are matched by name without take or version, tracks by name, and jumps by their order and place in time, so
that a retimed jump is still the same one.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from .names import ShotName
from .rows import RANK_DOUBTFUL, RANK_NO_JUMP, RANK_UNREADABLE, DayRow

NOTABLE = 0.1
"""Change of a finding's size, ln(measured / expected), from which it is better or worse (ours)."""
UNPAIRED = 1.0
"""What leaving a jump of each day alone costs, in airtimes that a jump moved (ours)."""
FIRST_MOVE = 0.9
"""What a take that moved as a whole costs at most: less than UNPAIRED, so that a lone jump is found again (ours)."""


class Change(StrEnum):
    """What became of a jump since the earlier day."""

    BETTER = "better"
    WORSE = "worse"
    SAME = "same"
    NEW = "new"
    GONE = "gone"


@dataclass(frozen=True, slots=True, eq=False)
class Pair:
    """A row of the later day, its change, and its row of the earlier day; None where it has none."""

    row: DayRow | None
    change: Change
    earlier: DayRow | None


def compare_days(later: Sequence[DayRow], earlier: Sequence[DayRow]) -> list[Pair]:
    """Pair every row of a later day with that of an earlier one; rows that are gone come last."""
    takes = _latest_takes(earlier)
    groups = _grouped(later)
    pairs, used = [], set()
    for (name, track), rows in groups.items():
        if rows[0].rank == RANK_UNREADABLE:
            known = {key for key in takes if key[0] == name.base}
            pairs.append(Pair(rows[0], _unread(known), None))
            used |= known  # whether its jumps are gone cannot be told
            continue
        before = takes.get((name.base, track), {})
        take = name.take if name.take in before else _last_take(before)
        used.add((name.base, track))
        pairs += _pair(rows, before.get(take, []))
    gone = [row for key, by_take in takes.items() if key not in used for row in by_take[_last_take(by_take)]]
    return pairs + [Pair(None, Change.GONE, row) for row in gone]


def _unread(known: set[tuple[str, str]]) -> Change:
    """Tell what became of a shot that cannot be read: worse where it could be."""
    if not known:
        return Change.NEW
    return Change.SAME if all(not track for _, track in known) else Change.WORSE


def _grouped(rows: Iterable[DayRow]) -> dict[tuple[ShotName, str], list[DayRow]]:
    groups: dict[tuple[ShotName, str], list[DayRow]] = {}
    for row in rows:
        groups.setdefault((row.name, row.track_name), []).append(row)
    return groups


def _latest_takes(rows: Iterable[DayRow]) -> dict[tuple[str, str], dict[str, list[DayRow]]]:
    """Return rows by base name and track, then by take."""
    takes: dict[tuple[str, str], dict[str, list[DayRow]]] = {}
    for (name, track), group in _grouped(rows).items():
        takes.setdefault((name.base, track), {}).setdefault(name.take, []).extend(group)
    return takes


def _last_take(by_take: Mapping[str, list[DayRow]]) -> str:
    return max(by_take, key=lambda take: by_take[take][0].name.number, default="")


def _pair(rows: Sequence[DayRow], before: Sequence[DayRow]) -> list[Pair]:
    """Pair the rows of one track: its jumps in order at the least cost, what holds no jump as a whole."""
    jumps = [row for row in rows if row.jump is not None]
    past = [row for row in before if row.jump is not None]
    pairs = [Pair(row, change_of(row, other), other) for row, other in _aligned(jumps, past)]
    matched = {id(pair.earlier) for pair in pairs}
    for row in rows:
        if row.jump is None:
            other = next((old for old in before if old.jump is None), None)
            pairs.append(Pair(row, change_of(row, other) if before else Change.NEW, other))
    return pairs + [Pair(None, Change.GONE, row) for row in past if id(row) not in matched]


def change_of(row: DayRow, earlier: DayRow | None) -> Change:
    """Tell better from worse by the gravest finding, then by how many as grave, then by the size of the gravest."""
    if earlier is None:
        return Change.NEW
    now, then = _burden(row), _burden(earlier)
    if now[:2] != then[:2]:
        return Change.BETTER if now < then else Change.WORSE
    if abs(now[2] - then[2]) > NOTABLE and row.findings[0]["code"] == earlier.findings[0]["code"]:
        return Change.BETTER if now[2] < then[2] else Change.WORSE
    return Change.SAME


def _burden(row: DayRow) -> tuple[float, int, float]:
    if row.rank in (RANK_DOUBTFUL, RANK_NO_JUMP, RANK_UNREADABLE) or not row.findings:
        return (row.rank if row.rank == RANK_UNREADABLE else -1.0), 0, 0.0
    grave = [finding for finding in row.findings if finding["severity"] == row.findings[0]["severity"]]
    return row.rank, len(grave), row.size


def _aligned(later: Sequence[DayRow], earlier: Sequence[DayRow]) -> list[tuple[DayRow, DayRow | None]]:
    """Pair jumps of two takes in their order so that the whole costs least (alignment of two sequences).

    A pair costs what its jump moved more than the one before it, in airtimes, and how unlike the heights are;
    leaving a jump alone costs half of UNPAIRED. So a retiming that moves all that follows costs once.
    """
    ends: dict[tuple[int, int], tuple[float, tuple[tuple[int, int], ...]]] = {}
    for i, row in enumerate(later):
        for j, old in enumerate(earlier):
            unlike = abs(math.log(_height(row) / _height(old)))
            ways: list[tuple[float, tuple[tuple[int, int], ...]]] = []
            ways.append(((i + j) * UNPAIRED / 2 + min(_moved(row, old), FIRST_MOVE) + unlike, ((i, j),)))
            for (k, m), (cost, pairs) in ends.items():
                if k < i and m < j:
                    skipped = (i - k - 1 + j - m - 1) * UNPAIRED / 2
                    moved = _moved(row, old, later[k], earlier[m])
                    ways.append((cost + skipped + moved + unlike, (*pairs, (i, j))))
            ends[i, j] = min(ways)
    alone = ((len(later) + len(earlier)) * UNPAIRED / 2, ())
    closed = [(cost + (len(later) - i - 1 + len(earlier) - j - 1) * UNPAIRED / 2, pairs)
              for (i, j), (cost, pairs) in ends.items()]  # fmt: skip
    partner = dict(min([alone, *closed])[1])
    return [(row, earlier[partner[place]] if place in partner else None) for place, row in enumerate(later)]


def _moved(row: DayRow, old: DayRow, row_before: DayRow | None = None, old_before: DayRow | None = None) -> float:
    """Tell how far a jump moved, in airtimes; with the jumps before, how much farther than they did."""
    shift = _middle(row) - _middle(old)
    if row_before is not None and old_before is not None:
        shift -= _middle(row_before) - _middle(old_before)
    return abs(shift) / max(_airtime(row), _airtime(old))


def _middle(row: DayRow) -> float:
    assert row.jump is not None
    return (row.jump["takeoff"]["frame"] + row.jump["landing"]["frame"]) / 2.0


def _airtime(row: DayRow) -> float:
    assert row.jump is not None
    return max(row.jump["landing"]["frame"] - row.jump["takeoff"]["frame"], 1.0)


def _height(row: DayRow) -> float:
    assert row.jump is not None
    return max(row.jump["jump_height"], row.jump["drop_height"], 0.01)
