"""The rows of a day: a row a jump, and one for every shot or track without; gravest first, then by size.

Everything is read from the audit's document (schema leapwright-audit/1), so that a day that was audited
elsewhere, in parts, or before, is listed the same.
"""

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..certainty import Certainty
from ..finding import SEVERITIES
from .names import ShotName, shot_name

Data = Mapping[str, Any]
RANK_UNREADABLE = len(SEVERITIES) - 1.5
"""Rank of a shot that could not be read: after what is to fix, before what is to check."""
RANK_CLEAN, RANK_DOUBTFUL, RANK_NO_JUMP = -1.0, -2.0, -3.0
"""Ranks of a jump with nothing to mend, of one that may be none, and of a track without a jump."""


@dataclass(frozen=True, slots=True, eq=False)
class DayRow:
    """One thing to look at, with the parts of the document that it stands for.

    label    the shot as it is told apart from the others of the day
    number   of the jump in its track, from 1; 0 without one
    track, jump   None where there is none
    """

    label: str
    name: ShotName
    shot: Data
    track: Data | None = None
    jump: Data | None = None
    number: int = 0

    @property
    def key(self) -> str:
        """What the row is called in addresses, notes and comparisons of one day."""
        return " · ".join(filter(None, (self.label, self.track_name, str(self.number or ""))))

    @property
    def track_name(self) -> str:
        """The name of its track; empty without one."""
        return str(self.track["name"]) if self.track else ""

    @property
    def character(self) -> str:
        """Whom the track belongs to: the armature or object before the bone."""
        return self.track_name.partition("/")[0]

    @property
    def certainty(self) -> str:
        """How sure it is that this is a jump; empty without one, and in documents that do not say."""
        return str(self.jump.get("certainty", "")) if self.jump else ""

    @property
    def findings(self) -> Sequence[Data]:
        """What was found, gravest first."""
        return self.jump["findings"] if self.jump else ()

    @property
    def rank(self) -> float:
        """How soon to look at it: the severity of its gravest finding, or where it stands without one."""
        if self.shot["status"] != "ok":
            return RANK_UNREADABLE
        if self.jump is None:
            return RANK_NO_JUMP
        if self.certainty == Certainty.DOUBTFUL:
            return RANK_DOUBTFUL
        return max((SEVERITIES.index(finding["severity"]) for finding in self.findings), default=RANK_CLEAN)

    @property
    def size(self) -> float:
        """How far the gravest finding is off: |ln(measured / expected)|; 0 where it has no such figures."""
        return finding_size(self.findings[0]) if self.findings else 0.0


def finding_size(finding: Data) -> float:
    """Tell how far a finding is off, whatever its unit: |ln(measured / expected)|, 0 where that cannot be told."""
    measured, expected = finding.get("measured"), finding.get("expected")
    if not measured or not expected or measured * expected <= 0.0:
        return 0.0
    return abs(math.log(measured / expected))


def day_rows(document: Data) -> list[DayRow]:
    """Return the rows of a document, in the order of its shots, tracks and jumps."""
    shots = document["shots"]
    return [row for label, shot in zip(shot_labels(shots), shots, strict=True) for row in _of_shot(label, shot)]


def shot_labels(shots: Sequence[Data]) -> list[str]:
    """Name each shot by its file's name without suffix; by its path where two share that."""
    stems = [shot_name(shot["path"]).stem for shot in shots]
    count = Counter(stems)
    return [stem if count[stem] == 1 else shot["path"] for shot, stem in zip(shots, stems, strict=True)]


def _of_shot(label: str, shot: Data) -> Iterable[DayRow]:
    name = shot_name(shot["path"])
    if not shot["tracks"]:
        yield DayRow(label, name, shot)
    for track in shot["tracks"]:
        if not track["jumps"]:
            yield DayRow(label, name, shot, track)
        for number, jump in enumerate(track["jumps"], 1):
            yield DayRow(label, name, shot, track, jump, number)
