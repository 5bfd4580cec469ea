"""The lengths a mend may give to push, rise, fall and absorb: the exact ones, and whole frames near them. Frames."""

import itertools
import math
from collections.abc import Iterator

import numpy as np

from ..beat import around, whole_frame
from ..errors import RetimeError
from ..jump import Jump
from ..track import EVENTS, Track

SNAP = 0.75
"""Distance within which an event is taken to lie on a key, in steps of the shot: frames, for a shot on ones."""

HALF = 0.5 + 1e-6
"""Most that whole frames may move the apex within the airtime, in frames."""
LEANING = 1.21
"""Most that rise over fall may change, as a factor: an even flight of five and six frames; more bends it visibly
(ours)."""
FARTHEST_LENGTH = 3.0
"""Factor between a length and the exact one, either way, past which it is no length near it (ours)."""
PUSH_MENDED = frozenset({"push-long", "push-short", "push-speed"})
"""Findings of the push that moving keys can mend."""
MUSHY_LANDING, STIFF_LANDING = "landing-mushy", "landing-stiff"
"""Findings of a landing that is absorbed too slowly, or too fast."""

Frames = dict[str, float]
"""Frames of events, or lengths of the stretches between them, by name and in order."""


def anchors(track: Track, jump: Jump) -> Frames:
    """Return frames of the jump's events where their keys lie: the nearest key, else the nearest whole frame.

    Crouch, apex and absorbed are left out where there is none, or it lies on the event beside it.
    """
    events = {name: event for name in EVENTS if (event := getattr(jump, name)) is not None}
    frames = {name: _key_near(track, event.frame, jump.step) for name, event in events.items()}
    takeoff, landing = frames["takeoff"], frames["landing"]
    if landing - takeoff < 2.0:
        raise RetimeError("takeoff and landing are too close: there is no flight to retime")
    apart = {"crouch": frames.get("crouch", takeoff) < takeoff, "takeoff": True, "landing": True}
    apart |= {"apex": takeoff < frames["apex"] < landing, "absorbed": frames.get("absorbed", landing) > landing}
    return {name: frame for name, frame in frames.items() if apart[name]}


def _key_near(track: Track, frame: float, step: int) -> float:
    """Return the nearest key, else the nearest whole frame."""
    keys = track.key_frames
    if keys is not None and len(keys):
        key = float(keys[np.abs(keys - frame).argmin()])
        if abs(key - frame) <= SNAP * step:
            return key
    return whole_frame(frame)


def exact_lengths(jump: Jump, old: Frames, *, keep: str, pace: float) -> Frames:
    """Return lengths of push, rise, fall and absorb that keeping the one or the other asks for, in frames of the keys.

    old: the jump's anchors. A landing that is absorbed too fast or too slowly is fitted too. Raises RetimeError
    where there is no push to fit, or no pace to change.
    """
    takeoff, landing = old["takeoff"], old["landing"]
    push, pace_now = jump.push if "crouch" in old else None, jump.flight.pace
    if push is None and keep != "nothing":
        raise RetimeError(
            "there is no push before this flight" if jump.crouch is None else "crouch and takeoff lie on one frame"
        )
    if keep == "nothing" and pace_now is None:
        raise RetimeError("this flight has no air pace to change")
    owed = push.expected.value / push.frames.value if push else 1.0
    scale = {"flight": 1.0, "push": 1.0 / owed, "nothing": (pace_now.value if pace_now else 1.0) / pace}[keep]
    lengths: Frames = {}
    if "crouch" in old:
        lengths["push"] = (takeoff - old["crouch"]) * (1.0 if keep == "push" else owed * scale)
    apex = old.get("apex", takeoff)
    lengths |= {"rise": (apex - takeoff) * scale, "fall": (landing - apex) * scale}
    if "absorbed" in old:
        lengths["absorb"] = (old["absorbed"] - landing) * scale * _absorb_owed(jump)
    return {name: length for name, length in lengths.items() if length > 0.0}


def _absorb_owed(jump: Jump) -> float:
    """Return the share of its frames that the landing should be absorbed in: 1 where its time is not what is off."""
    codes = {finding.code for finding in jump.findings}
    if jump.absorb is None:
        return 1.0
    asked, now = jump.absorb.expected.value, jump.absorb.frames.value
    if not codes & ({MUSHY_LANDING} if now > asked else {STIFF_LANDING}):
        return 1.0
    return asked / now


def near_lengths(old: Frames, exact: Frames, *, step: int) -> Iterator[tuple[float, Frames]]:
    """Yield whole-frame lengths near the exact ones, each with how far off it is, as a sum of log ratios.

    Lengths differ from the drawn ones by whole steps, so that a shot on twos stays on them. A push that
    is not kept goes with the airtime that is tried, apex and absorb go where it puts them: the apex within half a
    frame.
    """
    now = lengths_of(old)
    air = exact.get("rise", 0.0) + exact["fall"]
    drawn = now.get("rise", 0.0) + now["fall"]
    for flight in around(air, drawn=drawn, step=step):
        share = flight / air
        if not _is_near(share):
            continue
        for push in _pushes(exact.get("push", 0.0), now.get("push", 0.0), share, step):
            owed = push / (share * exact["push"]) if push else 1.0
            for rise in _rises(share, exact, now, step):
                skew = abs(rise - share * exact.get("rise", 0.0))
                if flight - rise < step or not _is_near(owed) or skew > HALF or _leans(rise, flight - rise, exact):
                    continue
                new = {"push": push, "rise": rise, "fall": flight - rise}
                off = abs(math.log(share)) + abs(math.log(owed)) + 2.0 * skew / flight
                if "absorb" in exact:
                    new["absorb"] = around(share * exact["absorb"], drawn=now["absorb"], step=step, reach=0)[0]
                yield off, {name: length for name, length in new.items() if name in exact}


def _pushes(exact: float, drawn: float, share: float, step: int) -> list[float]:
    """Return lengths of a push that goes with a flight of this share of its exact one; one that is kept stays."""
    return [drawn] if abs(exact - drawn) < 1e-9 else around(share * exact, drawn=drawn, step=step)


def _rises(share: float, exact: Frames, now: Frames, step: int) -> list[float]:
    """Return the rises to try; of a fall off a ledge none."""
    return around(share * exact["rise"], drawn=now["rise"], step=step, reach=0) if "rise" in exact else [0.0]


def _leans(rise: float, fall: float, exact: Frames) -> bool:
    """Tell whether whole frames would give rise and fall gravities of their own."""
    if not rise or "rise" not in exact:
        return False
    leaning = rise * exact["fall"] / (fall * exact["rise"])
    return not 1.0 / LEANING <= leaning <= LEANING


def _is_near(ratio: float) -> bool:
    return 1.0 / FARTHEST_LENGTH <= ratio <= FARTHEST_LENGTH


def lengths_of(frames: Frames) -> Frames:
    """Return push, rise, fall and absorb between events; without an apex the flight is all fall."""
    names = {"takeoff": "push", "apex": "rise", "landing": "fall", "absorbed": "absorb"}
    pairs = itertools.pairwise(frames.items())
    return {names[end]: b - a for (_, a), (end, b) in pairs}
