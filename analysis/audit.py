"""Audit: every jump of a track, measured and judged."""

from collections.abc import Generator
from dataclasses import dataclass, replace

from .certainty import Certainty
from .events.find import find_in_steps
from .feet import feet_of
from .finding import SEVERITIES
from .findings import FINDERS
from .jump import Jump, measure
from .mending import with_mends
from .notes import Note
from .settings import Settings
from .steps import finished
from .track import Track


@dataclass(frozen=True, slots=True)
class Audit:
    """What was found on one track; its names are those of the audit's JSON.

    jumps are in order of time, the findings of each in order of severity, gravest first. notes are
    sentences that concern the whole track; said are those of them that are about its jumps, with their values.
    """

    name: str
    source: str
    fps: float
    frame_start: float
    frame_end: float
    notes: tuple[str, ...]
    jumps: tuple[Jump, ...]
    said: tuple[Note, ...] = ()

    @property
    def worst(self) -> int:
        """Rank of the gravest finding of the jumps that are sure or likely: 2 fix, 1 check, 0 note; else -1."""
        told = (jump for jump in self.jumps if jump.certainty is not Certainty.DOUBTFUL)
        return max((finding.rank for jump in told for finding in jump.findings), default=-1)


Steps = Generator[None, None, Audit]
"""An audit that is worked out a step at a time, each about a thousandth of a second a jump; it is what returns."""


def audit_track(track: Track, settings: Settings = Settings()) -> Audit:  # noqa: B008 (frozen)
    """Find the jumps of a track, measure each and say what is off.

    Never raises for what a sound Track holds: a track without a jump gives an Audit without jumps and a
    note that says why.

    >>> audit_track(Track("still", 24, range(10), [[0, 0, 1]] * 10)).jumps
    ()
    """
    return finished(mend_in_steps(track, finished(judge_in_steps(track, settings)), settings))


def judged_track(track: Track, settings: Settings = Settings()) -> Audit:  # noqa: B008 (frozen)
    """Find the jumps of a track, measure each and say what is off; plan no mends.

    >>> judged_track(Track("still", 24, range(10), [[0, 0, 1]] * 10)).jumps
    ()
    """
    return finished(judge_in_steps(track, settings))


def judge_in_steps(track: Track, settings: Settings) -> Steps:
    """Work a judged track out a step at a time, so that a window can draw in between; mends are not planned."""
    feet = feet_of(track)
    found = yield from find_in_steps(track, settings.world, settings.limits, feet=feet)
    jumps: list[Jump] = []
    for before, phases in zip((None, *found.phases), found.phases, strict=False):
        yield
        jumps.append(judge(measure(track, phases, settings.world, feet=feet, before=before), settings))
    return Audit(
        name=track.name,
        source=track.source,
        fps=track.fps,
        frame_start=float(track.frames[0]),
        frame_end=float(track.frames[-1]),
        notes=(*track.notes, *(note.text for note in found.notes)),
        said=found.notes,
        jumps=tuple(jumps),
    )


def mend_in_steps(track: Track, audit: Audit, settings: Settings) -> Steps:
    """Plan the mends of a judged track, a jump a step."""
    jumps: list[Jump] = []
    for jump in audit.jumps:
        yield
        jumps.append(with_mends(track, jump, settings))
    return replace(audit, jumps=tuple(jumps))


def judge(jump: Jump, settings: Settings) -> Jump:
    """Return the jump with its findings, gravest first; what may be no jump has only notes."""
    findings = [finding for find in FINDERS if (finding := find(jump, settings.limits)) is not None]
    if jump.certainty is Certainty.DOUBTFUL:
        findings = [replace(finding, severity=SEVERITIES[0]) for finding in findings]
    findings.sort(key=lambda finding: (-finding.rank, finding.frames[0], finding.code))
    return replace(jump, findings=tuple(findings))
