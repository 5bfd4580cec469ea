"""Worked over: breakdowns by eye, keys on every frame or every few, a held top, limbs that swing.

Poses and breakdowns have the key of a contact for truth; what is traced key by key from a body has the
instant at which that body left and touched the ground, which need not be a key.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np

from .blocking import block, drawn_sheet
from .draft import Draft, Sheet, draft, truths
from .host import drawn

PEOPLE = {"stand": (0.85, 1.1), "height": (0.15, 0.8), "fps": (24.0, 25.0, 30.0)}
"""Hips of grown people, hops that they can do, and the rates of film: the time in which their toes lift them, by 2 to
10 % of the standing height, is then half a frame at most. For a body of 2 m that hops by 6 cm at 60 frames a second it
is four frames."""
BY_EYE = 0.02
"""Share of the jump's height by which a breakdown set by eye is off (one standard deviation)."""


def breakdowns(rng: np.random.Generator, *, baked: bool = False, **ranges) -> Sheet:
    """Return poses, and three to six breakdowns a jump on frames between them."""
    body = draft(rng, air=7.0, **ranges)
    poses = block(rng, body)
    keys, taken, places = list(poses.keys), list(poses.taken), list(poses.places)
    for jump, (crouch, takeoff, _, landing, absorbed) in zip(body.jumped.bodies, poses.events, strict=True):
        there = np.arange(crouch - 3, absorbed + 4)
        free = there[~np.isin(there, keys) & (there > poses.keys[0]) & (there < poses.keys[-1])]
        weight = np.where((free > takeoff) & (free < landing), 3.0, 1.0)
        count = min(int(rng.integers(3, 7)), len(free))
        for key in rng.choice(free, count, replace=False, p=weight / weight.sum()):
            when = float(np.interp(key, poses.keys, poses.taken))
            place = body.at(np.array([when]))[0]
            place[2] += rng.normal(0.0, BY_EYE * jump.height)
            keys.append(key)
            taken.append(when)
            places.append(place)
    order = np.argsort(keys)
    worked = replace(poses, keys=np.array(keys)[order], taken=np.array(taken)[order], places=np.array(places)[order])
    sheet = drawn_sheet(worked, rng)
    if not baked:
        return sheet
    known = rng.uniform() < 0.7
    return replace(sheet, keys=sheet.frames if known else None, joined="linear" if known else None)


def every(rng: np.random.Generator, *, step: int, **ranges) -> Sheet:
    """Return a key on every `step`th frame, traced and set by hand up to a centimeter off."""
    body = draft(rng, air=max(8.0, 3.5 * step), pushed=max(2.0, 0.75 * step), **ranges)
    keys = np.arange(np.ceil(body.start), body.end, step)
    off = min(rng.uniform(0.0, 0.01), 0.06 * min(jump.height for jump in body.jumped.bodies))
    places = body.at(keys) + rng.uniform(-off, off, (len(keys), 3)) * [0.3, 0.3, 1.0]
    frames = np.arange(keys[0], keys[-1] + 1)
    return Sheet(body.fps, frames, drawn(keys, places, frames), _traced(body), keys, "bezier")


def _traced(body: Draft, times: np.ndarray | None = None) -> tuple:
    """Truth of the body itself."""
    heights = np.array([body.at(row)[:, 2] for row in body.times])
    return truths(body.times if times is None else times, heights)


def held(rng: np.random.Generator) -> Sheet:
    """Return a key on every frame, and the apex held for three to eight of them, a third of the flight or more.

    So it spends 0.62 of the airtime, or more, above three quarters of the height; on an arc it is a half.
    """
    while True:
        body = draft(rng, air=9.0, count=(1,), uneven=0.0, fps=(24.0, 25.0, 30.0), height=(0.1, 1.0))
        (times,) = body.times
        least = max(3, int(np.ceil((times[3] - times[1]) / 3.0)))
        if least <= 8:
            break
    hold = float(rng.integers(least, 9))
    frames = np.arange(np.ceil(body.start), np.floor(body.end + hold))
    taken = np.where(frames < times[2], frames, np.maximum(frames - hold, times[2]))
    events = times[None] + np.array([0.0, 0.0, hold / 2, hold, hold])
    return Sheet(body.fps, frames, body.at(taken), _traced(body, events), frames, "bezier")


def limbs(rng: np.random.Generator) -> Sheet:
    """Return the pelvis of a body whose legs and arms swing: its center of mass less what they carry, 2 to 20 cm.

    The contacts are those of the center of mass; apex and heights are the pelvis's own.
    """
    body = draft(rng, height=(0.2, 1.5), stand=(0.6, 2.0), air=7.0, count=(1, 1, 2))
    frames = np.arange(np.ceil(body.start), body.end)
    fine = np.arange(frames[0], frames[-1], 0.05)
    curve, shown = body.at(fine)[:, 2], body.at(frames)
    for jump, (crouch, takeoff, _, landing, absorbed) in zip(body.jumped.bodies, body.times, strict=True):
        most = min(0.2, 0.15 * jump.stand, 0.4 * jump.height)
        for _ in range(int(rng.integers(2, 4))):
            middle, width = rng.uniform(crouch, absorbed), rng.uniform(0.2, 0.6) * (landing - takeoff)
            size = rng.choice([-1.0, 1.0]) * rng.uniform(min(0.02, most / 2), most)
            for heights, at in ((curve, fine), (shown[:, 2], frames)):
                heights -= size * np.exp(-(((at - middle) / width) ** 2))
    events = body.times.copy()
    for row in events:
        air = (fine > row[1]) & (fine < row[3])
        row[2] = fine[air][np.argmax(curve[air])]
    heights = np.interp(events, fine, curve)
    step = int(rng.choice([1, 1, 2]))
    keys, joined = (frames, "linear") if step == 1 else (frames[::2], "bezier")
    if step == 2:
        frames = np.arange(keys[0], keys[-1] + 1)
        shown = drawn(keys, shown[::2], frames)
    elif rng.uniform() < 0.4:
        keys = joined = None
    return Sheet(body.fps, frames, shown, truths(events, heights), keys, joined)


MAKERS: dict[str, Callable[[np.random.Generator], Sheet]] = {
    "apex held": held,
    "breakdowns": partial(breakdowns, **PEOPLE),
    "breakdowns, any size": breakdowns,
    "breakdowns, baked": partial(breakdowns, baked=True, **PEOPLE),
    "breakdowns, baked, any size": partial(breakdowns, baked=True),
    **{f"key every {step}": partial(every, step=step, **PEOPLE) for step in (1, 2, 3, 4)},
    **{f"key every {step}, any size": partial(every, step=step) for step in (1, 2, 3, 4)},
    "limbs swing": limbs,
}
