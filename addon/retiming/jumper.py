"""Which track of a scene has the jump that is to be retimed."""

from bpy.types import Scene

from ...analysis.audit import Audit, audit_track
from ...analysis.errors import RetimeError, SourceError
from ...analysis.settings import Settings
from ...analysis.track import Track
from ..shots.candidates import Candidate, candidate_named, find_candidates


def jumper(scene: Scene, name: str | None, number: int, settings: Settings) -> tuple[Candidate, Track]:
    """Return the track that is named, or the only one that has as many jumps, with what it is read from.

    number counts from 0. Raises SourceError where nothing has the name, RetimeError where there is no such jump,
    with those that there are, or several tracks have one.
    """
    candidates = find_candidates(scene) if name is None else (candidate_named(scene, name),)
    found: list[tuple[Candidate, Track]] = []
    fewer, refused = [], []
    for candidate in candidates:
        try:
            track = candidate.sample()
        except SourceError as refusal:
            if name is not None:
                raise
            refused.append(str(refusal))
            continue
        audit = audit_track(track, settings)
        if len(audit.jumps) > number:
            found.append((candidate, track))
        else:
            fewer.append(_jumps(candidate, audit))
    if len(found) == 1:
        return found[0]
    if found:
        raise RetimeError(f"several tracks jump: name one by --track, {', '.join(c.name for c, _ in found)}")
    if fewer:
        raise RetimeError(f"there is no jump {number + 1}: {'; '.join([*fewer, *refused])}")
    raise RetimeError("; ".join(refused) or "it holds nothing that is keyed")


def _jumps(candidate: Candidate, audit: Audit) -> str:
    """Say which jumps a track has."""
    if not audit.jumps:
        return f"{candidate.name} has none"
    frames = [f"{place} (frames {jump.takeoff.frame:.0f} to {jump.landing.frame:.0f})"
              for place, jump in enumerate(audit.jumps, 1)]  # fmt: skip
    return f"{candidate.name} has {', '.join(frames)}"
