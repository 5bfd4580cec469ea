"""Poses alone: stand, crouch, hold, takeoff, apex, landing, absorbed, stand, joined by the host's own curve.

The animator times whole frames. Where a contact is keyed, its key is the truth.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from .draft import Draft, Sheet, draft, truths
from .host import drawn


@dataclass(frozen=True)
class Poses:
    """Keys of a blocked shot: their whole frames, the frames of the body they were taken from, and places.

    events: (m, 5) whole frames.
    """

    fps: float
    keys: np.ndarray
    taken: np.ndarray
    places: np.ndarray
    events: np.ndarray

    def moved(self, events: np.ndarray) -> "Poses":
        """Return the same poses with events on other frames; only keys of events move."""
        places = dict(zip(self.events.ravel(), events.ravel(), strict=True))
        return replace(self, keys=np.array([places.get(key, key) for key in self.keys]), events=events)

    def without(self, frames: np.ndarray) -> "Poses":
        """Return the same poses without the keys on these frames."""
        kept = ~np.isin(self.keys, frames)
        return replace(self, keys=self.keys[kept], taken=self.taken[kept], places=self.places[kept])


def block(rng: np.random.Generator, body: Draft, *, step: int = 1, rise: int = 2) -> Poses:
    """Set the poses on whole frames, steps apart, as near to the body's own as they go. rise: fewest frames."""
    first = np.floor(body.start)
    bounds = body.start + body.fps * body.jumped.path.starts
    taken = np.unique(np.concatenate([bounds, body.times.ravel()]))
    taken = taken[np.diff(taken, append=np.inf) > 1e-6]
    keys = first + step * np.round((taken - first) / step)
    apexes = np.abs(taken[:, None] - body.times[:, 2]).min(axis=1) < 1e-6
    for i in range(1, len(keys)):
        least = step * (rise if apexes[i] or apexes[i - 1] else 1)
        keys[i] = max(keys[i], keys[i - 1] + least)
    events = keys[np.searchsorted(taken, body.times - 1e-6)]
    return Poses(body.fps, keys, taken, body.at(taken), events)


def drawn_sheet(poses: Poses, rng: np.random.Generator, *, joined: str = "bezier", handles: str | None = None) -> Sheet:
    """Return the curve through the poses on every frame; events are their keys."""
    handles = handles or str(rng.choice(["clamped", "clamped", "clamped", "auto"]))
    frames = np.arange(poses.keys[0], poses.keys[-1] + 1)
    positions = drawn(poses.keys, poses.places, frames, joined=joined, handles=handles)
    heights = positions[np.searchsorted(frames, poses.events), 2]
    return Sheet(poses.fps, frames, positions, truths(poses.events, heights), poses.keys, joined)


def posed(rng: np.random.Generator, *, joined: str = "bezier", **ranges) -> Sheet:
    """Return poses alone."""
    return drawn_sheet(block(rng, draft(rng, **ranges)), rng, joined=joined)


def skewed(rng: np.random.Generator) -> Sheet:
    """Return the apex keyed a quarter to a third into the airtime, or as long before its end."""
    poses = block(rng, draft(rng, air=10.0, height=(0.1, 2.0), uneven=0.0))
    events = poses.events.copy()
    share = rng.uniform(0.22, 0.32)
    share = rng.choice([share, 1.0 - share])
    takeoff, landing = events[:, 1], events[:, 3]
    events[:, 2] = np.clip(np.round(takeoff + share * (landing - takeoff)), takeoff + 1, landing - 1)
    return drawn_sheet(poses.moved(events), rng)


def no_contacts(rng: np.random.Generator) -> Sheet:
    """Return crouch, apex and bottom only: no key where the feet leave and touch.

    The true contact is where the drawn curve is as high as the body on its toes: its standing height and its own lift.
    A drawing tells only that this height lies between the standing height and an eighth more of it, so half of the
    frames in that span are left open.
    """
    body = draft(rng, height=(0.15, 2.0), air=8.0, count=(1,), uneven=0.0)
    whole = block(rng, body)
    poses = whole.without(whole.events[:, [1, 3]])
    sheet = drawn_sheet(poses, rng, handles="clamped")
    (jump,) = body.jumped.bodies
    crouch, _, apex, _, absorbed = whole.events[0]
    fine = np.arange(crouch, absorbed, 0.02)
    curve = drawn(poses.keys, poses.places, fine)[:, 2]

    def crossings(level: float) -> np.ndarray:
        over = np.flatnonzero(curve > level)
        return fine[over[[0, -1]]]

    contacts = crossings(jump.stand + jump.lift)
    high = min(1.125 * jump.stand, 0.99 * curve.max())
    span = np.abs(crossings(high) - crossings(jump.stand))
    events = np.array([[crouch, contacts[0], apex, contacts[1], absorbed]])
    heights = np.interp(events, fine, curve)
    return replace(sheet, truth=truths(events, heights, open_by=float(span.max() / 2)))


def on_twos(rng: np.random.Generator) -> Sheet:
    """Return an eased curve played on twos: keys on even frames, every second value held.

    A host that steps the curve leaves the keys of the poses; one that bakes it gives each second frame one;
    a file gives none.
    """
    poses = block(rng, draft(rng, air=10.0, pushed=3.0), step=2)
    sheet = drawn_sheet(poses, rng)
    index = np.arange(len(sheet.frames)) // 2 * 2
    keys, joined = [(poses.keys, "bezier"), (sheet.frames[::2], "constant"), (None, None)][int(rng.integers(3))]
    return replace(sheet, positions=sheet.positions[index], keys=keys, joined=joined)


MAKERS: dict[str, Callable[[np.random.Generator], Sheet]] = {
    "poses": posed,
    "floaty": partial(posed, pace=(0.42, 0.62), height=(0.1, 2.0), air=8.0),
    "snappy": partial(posed, pace=(1.6, 2.2), height=(0.25, 2.0), air=6.0),
    "cartoon": partial(posed, height=(1.5, 10.0), stand=(0.6, 2.0), ratio=(2.0, 8.0), pace=(0.7, 1.6)),
    "apex skewed": skewed,
    "joined by lines": partial(posed, joined="linear"),
    "no contact keys": no_contacts,
    "eased on twos": on_twos,
    "pace a third": partial(posed, pace=(0.2, 0.4), height=(0.1, 1.5), air=8.0),
    "pace threefold": partial(posed, pace=(2.3, 3.5), height=(0.3, 4.0), air=5.0, pushed=1.0),
}
