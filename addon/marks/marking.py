"""What the operators that mark by hand share: the followed track with its marks, and the audit they lead to."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bpy.types import Context

from ...analysis.audit import Audit, audit_track
from ...analysis.errors import LeapwrightError
from ...analysis.jump import Jump
from ...analysis.track import Marks, Track
from .. import auditing, results
from ..basis import Basis
from ..blender_words import Outcome
from ..refusals import Refusing
from ..sidebar import rows
from ..target import target_of
from . import marks


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A track with its marks, what it was made of, its audit, and the jump chosen in the panel, if any."""

    track: Track
    path: Track
    basis: Basis
    audit: Audit
    chosen: int | None

    def marked(self, by_hand: Sequence[Marks]) -> "Sheet":
        """Audit the same track with other marks."""
        track = replace(self.track, marks=tuple(by_hand))
        return replace(self, track=track, audit=audit_track(track, self.basis.settings))

    def added(self, before: "Sheet") -> list[Marks]:
        """List the marks that were not there before."""
        return [mark for mark in self.track.marks if mark not in before.track.marks]

    def keep(self, context: Context, *, chosen: int | None) -> None:
        """Save the marks with the scene, and make the audit its latest."""
        marks.put(context.scene, self.track.name, self.track.marks)
        auditing.keep(context.scene, results.Result(self.audit, self.track, self.basis, self.path), chosen=chosen or 0)


def sheet_of(context: Context) -> Sheet:
    """Read and audit the followed track. Raises LeapwrightError when it cannot be."""
    latest = results.latest(context.scene)
    read = auditing.read_followed(context)
    shown = latest is not None and latest.audit.name == read.track.name
    chosen = rows.of_window(context.window_manager).chosen if shown else None
    within = chosen is not None and chosen < len(read.audit.jumps)
    return Sheet(read.track, read.path, read.basis, read.audit, chosen if within else None)


class Marking(Refusing):
    """An operator that marks the followed track."""

    @classmethod
    def poll(cls, context: Context) -> bool:
        return cls.allowed(lambda: target_of(context))


class MarkingJump(Marking):
    """An operator that says something of the jump chosen in the panel."""

    def mark(self, context: Context, sheet: Sheet, jump: Jump) -> Outcome:
        """Mark the jump; raise LeapwrightError where the marks cannot be."""
        raise NotImplementedError

    def execute(self, context: Context) -> Outcome:
        """Find the chosen jump, and mark it."""
        try:
            sheet = sheet_of(context)
            if sheet.chosen is None:
                return self.refuse("Audit a jump of what is followed first")
            return self.mark(context, sheet, sheet.audit.jumps[sheet.chosen])
        except LeapwrightError as refusal:
            return self.refuse(refusal)
