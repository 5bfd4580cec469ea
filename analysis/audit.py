"""Audit: every jump of a track, measured and judged."""

from dataclasses import dataclass, replace

from .certainty import Certainty
from .events import find_phases
from .feet import feet_of
from .finding import SEVERITIES
from .findings import FINDERS
from .jump import Jump, measure
from .mending import with_mends
from .settings import Settings
from .track import Track


@dataclass(frozen=True, slots=True)
class Audit:
    """What was found on one track; its names are those of the audit's JSON.

    jumps are in order of time, the findings of each in order of severity, gravest first. notes are
    sentences that concern the whole track.
    """

    name: str
    source: str
    fps: float
    frame_start: float
    frame_end: float
    notes: tuple[str, ...]
    jumps: tuple[Jump, ...]

    @property
    def worst(self) -> int:
        """Rank of the gravest finding of the jumps that are sure or likely: 2 fix, 1 check, 0 note; else -1."""
        told = (jump for jump in self.jumps if jump.certainty is not Certainty.DOUBTFUL)
        return max((finding.rank for jump in told for finding in jump.findings), default=-1)


def audit_track(track: Track, settings: Settings = Settings()) -> Audit:  # noqa: B008 (frozen)
    """Find the jumps of a track, measure each and say what is off.

    Never raises for what a sound Track holds: a track without a jump gives an Audit without jumps and a
    note that says why.

    >>> audit_track(Track("still", 24, range(10), [[0, 0, 1]] * 10)).jumps
    ()
    """
    feet = feet_of(track)
    found = find_phases(track, settings.world, settings.limits, feet=feet)
    measured = (
        measure(track, phases, settings.world, feet=feet, before=before)
        for before, phases in zip((None, *found.phases), found.phases, strict=False)
    )
    return Audit(
        name=track.name,
        source=track.source,
        fps=track.fps,
        frame_start=float(track.frames[0]),
        frame_end=float(track.frames[-1]),
        notes=(*track.notes, *(note.text for note in found.notes)),
        jumps=tuple(with_mends(track, judge(jump, settings), settings) for jump in measured),
    )


def judge(jump: Jump, settings: Settings) -> Jump:
    """The jump with its findings, gravest first; what may be no jump has only notes."""
    findings = [finding for find in FINDERS if (finding := find(jump, settings.limits)) is not None]
    if jump.certainty is Certainty.DOUBTFUL:
        findings = [replace(finding, severity=SEVERITIES[0]) for finding in findings]
    findings.sort(key=lambda finding: (-finding.rank, finding.frames[0], finding.code))
    return replace(jump, findings=tuple(findings))
