"""What the operators that mark by hand share: the followed track with its marks, and the audit they lead to."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bpy.types import Context

from ...analysis.audit import Audit, audit_track
from ...analysis.settings import Settings
from ...analysis.track import Marks, Track
from .. import results
from ..refusals import Refusing
from ..scene import settings_of
from ..sidebar import rows
from ..target import stand_in, target_of
from . import marks


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A track with its marks, what it is judged by, its audit, and the jump chosen in the panel, if any."""

    track: Track
    settings: Settings
    audit: Audit
    chosen: int | None

    def marked(self, by_hand: Sequence[Marks]) -> "Sheet":
        """Audit the same track with other marks."""
        track = replace(self.track, marks=tuple(by_hand))
        return replace(self, track=track, audit=audit_track(track, self.settings))

    def added(self, before: "Sheet") -> list[Marks]:
        """List the marks that were not there before."""
        return [mark for mark in self.track.marks if mark not in before.track.marks]

    def keep(self, context: Context, *, chosen: int | None) -> None:
        """Save the marks with the scene, and make the audit its latest."""
        marks.put(context.scene, self.track.name, self.track.marks)
        results.keep(context.scene, results.Result(self.audit, self.settings.world, self.track.marks))
        rows.fit(context.window_manager, len(self.audit.jumps))
        rows.of_window(context.window_manager).chosen = min(chosen or 0, max(len(self.audit.jumps) - 1, 0))


def sheet_of(context: Context) -> Sheet:
    """Read and audit the followed track. Raises LeapwrightError when it cannot be."""
    settings = settings_of(context.scene)
    track = stand_in(target_of(context)).sample(context)
    audit, latest = audit_track(track, settings), results.latest(context.scene)
    shown = latest is not None and latest.audit.name == track.name
    chosen = rows.of_window(context.window_manager).chosen if shown else None
    return Sheet(track, settings, audit, chosen if chosen is not None and chosen < len(audit.jumps) else None)


class Marking(Refusing):
    """An operator that marks the followed track."""

    @classmethod
    def poll(cls, context: Context) -> bool:
        return cls.allowed(lambda: target_of(context))
