"""Habits of animators around the same poses: holds that drift, overshoots, two dips, level handles, tight cuts.

Each contact has its key, which is its truth.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np

from .blocking import Poses, block, drawn_sheet, posed
from .draft import Draft, Sheet, draft


def _resting(poses: Poses) -> np.ndarray:
    """Tell which keys are of no event: stands, and the beginnings of dips and holds."""
    return ~np.isin(poses.keys, poses.events)


def _with(poses: Poses, keys: list[float], heights: list[float]) -> Poses:
    """Return the poses with more keys on frames that have none yet; x and y as they are there."""
    fresh = [(key, high) for key, high in zip(keys, heights, strict=True) if key not in poses.keys]
    added = np.array(
        [[*(np.interp(key, poses.keys, axis) for axis in poses.places.T[:2]), high] for key, high in fresh]
    )
    taken = np.array([np.interp(key, poses.keys, poses.taken) for key, _ in fresh])
    keys_ = np.concatenate([poses.keys, [key for key, _ in fresh]])
    order = np.argsort(keys_)
    return replace(
        poses,
        keys=keys_[order],
        taken=np.concatenate([poses.taken, taken])[order],
        places=np.vstack([poses.places, added.reshape(-1, 3)])[order],
    )


def moving_holds(rng: np.random.Generator) -> Sheet:
    """Stands and held crouches that drift by up to a hundredth of the standing height, or 2 % of a jump."""
    body = draft(rng)
    poses = block(rng, body)
    size = min(0.01 * body.jumped.bodies[0].stand, 0.02 * min(jump.height for jump in body.jumped.bodies))
    places = poses.places.copy()
    places[:, 2] += _resting(poses) * rng.uniform(-size, size, len(places))
    return drawn_sheet(replace(poses, places=places), rng)


def overshoot(rng: np.random.Generator) -> Sheet:
    """Come up out of the landing past the stand by 1 to 4 % of it, and settle."""
    body = draft(rng, flowing=0.0, ends=(0.6, 1.2))
    poses = block(rng, body)
    keys, heights = [], []
    for jump, row in zip(body.jumped.bodies, poses.events, strict=True):
        later = poses.keys[poses.keys > row[4]]
        up = np.round(row[4] + rng.uniform(0.5, 0.8) * (later[0] - row[4]))
        keys.append(float(up))
        heights.append(jump.after + rng.uniform(0.01, 0.04) * min(jump.stand, 3 * jump.height))
    return drawn_sheet(_with(poses, keys, heights), rng)


def two_dips(rng: np.random.Generator) -> Sheet:
    """Dip a little, come up nearly to the stand, then dip for the jump."""
    body = draft(rng, count=(1,), ends=(1.0, 1.6))
    poses = block(rng, body)
    (jump,) = body.jumped.bodies
    start = poses.keys[np.searchsorted(poses.keys, poses.events[0, 0]) - 1 - bool(jump.hold)]
    room = start - poses.keys[0]
    down = jump.stand - rng.uniform(0.2, 0.5) * (jump.distance - jump.lift)
    first, second = np.round(start - room * np.array([rng.uniform(0.5, 0.8), rng.uniform(0.2, 0.4)]))
    poses = _with(poses, [first, second], [jump.stand, down])
    return drawn_sheet(poses, rng)


def tight(rng: np.random.Generator) -> Sheet:
    """Return a shot cut from the beginning of the dip to a few frames after the bottom: no stand on it."""
    body: Draft = draft(rng, count=(1,))
    poses = block(rng, body)
    first = poses.keys[max(np.searchsorted(poses.keys, poses.events[0, 0]) - 2, 0)]
    sheet = drawn_sheet(poses, rng)
    kept = (sheet.frames >= first) & (sheet.frames <= poses.events[0, 4] + rng.integers(1, 5))
    inside = poses.keys[(poses.keys >= first) & (poses.keys <= sheet.frames[kept][-1])]
    return replace(sheet, frames=sheet.frames[kept], positions=sheet.positions[kept], keys=inside)


def level(rng: np.random.Generator) -> Sheet:
    """Return every handle level: the curve stops at each pose, contacts too."""
    return drawn_sheet(block(rng, draft(rng)), rng, handles="flat")


def stepped_breakdowns(rng: np.random.Generator) -> Sheet:
    """Return poses and breakdowns, each held until the next: what a first pass looks like."""
    body = draft(rng, air=9.0)
    poses = block(rng, body)
    keys, heights = [], []
    for jump, (crouch, takeoff, apex, landing, _) in zip(body.jumped.bodies, poses.events, strict=True):
        for start, end in ((crouch, takeoff), (takeoff, apex), (apex, landing)):
            if end - start >= 2:
                key = float(np.round((start + end) / 2))
                when = float(np.interp(key, poses.keys, poses.taken))
                keys.append(key)
                heights.append(body.at(np.array([when]))[0, 2] + rng.normal(0.0, 0.02 * jump.height))
    return drawn_sheet(_with(poses, keys, heights), rng, joined="constant")


MAKERS: dict[str, Callable[[np.random.Generator], Sheet]] = {
    "onto a box": partial(posed, deeper=(-0.75, -0.35), height=(0.2, 2.0)),
    "off a box": partial(posed, deeper=(0.8, 3.0), height=(0.1, 0.8)),
    "holds drift": moving_holds,
    "overshoot": overshoot,
    "two dips": two_dips,
    "tight cut": tight,
    "level handles": level,
    "stepped breakdowns": stepped_breakdowns,
}
