"""Which marks a pin goes to: those of the jump it lies in, or those of a jump still being made by hand."""

import math
from collections.abc import Sequence

from ...analysis.events.marks import reaches
from ...analysis.jump import Jump
from ...analysis.track import Marks

SAME_PIN_FRAMES = 1e-3
"""Distance within which a pin and an event are the same, in frames: single precision at frame 10 000."""
ONE_JUMP = 4.0
"""Seconds within which pins that belong to no jump are taken for one jump's (ours)."""


def belongs(marks: Marks, jump: Jump) -> bool:
    """Say whether a jump has events pinned by these marks."""
    events = ((getattr(jump, name), frame) for name, frame in marks.pinned.items())
    return any(
        event is not None and event.pinned and abs(event.frame - frame) <= SAME_PIN_FRAMES for event, frame in events
    )


def jump_for(jumps: Sequence[Jump], event: str, frame: float, *, fps: float, chosen: int | None) -> int | None:
    """Return the place of the jump that an event at this frame can be pinned for; the chosen one if it is."""
    near = [i for i, jump in enumerate(jumps) if reaches(*_span(jump), event, frame, fps=fps)]
    if chosen in near:
        return chosen
    return min(near, key=lambda i: abs(jumps[i].apex.frame - frame), default=None)


def pinned(
    marks: Sequence[Marks], jumps: Sequence[Jump], event: str, frame: float, *, fps: float, jump: int | None
) -> tuple[Marks, ...]:
    """Return the marks with an event pinned for one of the jumps; None: for one still to be made.

    A stretch without a jump that holds the frame is taken back. Raises SettingsError when the jump's pins would
    not rise.
    """
    kept = [mark for mark in marks if mark.no_jump is None or not mark.no_jump[0] <= frame <= mark.no_jump[1]]
    if jump is not None:
        same = [i for i, mark in enumerate(kept) if belongs(mark, jumps[jump])]
    else:
        apart = {i: _distance(mark, frame) for i, mark in enumerate(kept) if mark.pinned}
        free = [i for i in apart if not any(belongs(kept[i], other) for other in jumps)]
        same = sorted((i for i in free if apart[i] <= ONE_JUMP * fps), key=apart.__getitem__)
    if not same:
        return (*kept, Marks.of({event: frame}))
    kept[same[0]] = Marks.of({**kept[same[0]].pinned, event: frame})
    return tuple(kept)


def denied(marks: Sequence[Marks], jump: Jump) -> tuple[tuple[Marks, ...], tuple[Marks, ...]]:
    """Return the marks without the jump's own, and those with its flight said to hold no jump."""
    kept = tuple(mark for mark in marks if not belongs(mark, jump))
    stretch = float(math.floor(jump.takeoff.frame)), float(math.ceil(jump.landing.frame))
    return kept, (*kept, Marks(no_jump=stretch))


def has_pin(jump: Jump, event: str, frame: float) -> bool:
    """Say whether an event of a jump is pinned to this frame."""
    return belongs(Marks.of({event: frame}), jump)


def is_whole(mark: Marks) -> bool:
    """Say whether marks are enough to make a jump where none was found."""
    return {"takeoff", "apex", "landing"} <= set(mark.pinned)


def _span(jump: Jump) -> tuple[float, float]:
    return (jump.crouch or jump.takeoff).frame, (jump.absorbed or jump.landing).frame


def _distance(mark: Marks, frame: float) -> float:
    return min(abs(pin - frame) for pin in mark.pinned.values())
