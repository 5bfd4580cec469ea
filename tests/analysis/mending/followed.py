"""Seeded keyed jumps, and the same jumps after an animator has followed a mend to the letter."""

import math
from dataclasses import dataclass, replace

import numpy as np
from leapwright.analysis import Audit, Track, audit_track
from leapwright.analysis.audit import judge
from leapwright.analysis.certainty import Certainty
from leapwright.analysis.jump import Jump
from leapwright.analysis.mend import Mend, MendWay

from tests.analysis.keyed_leap import GRAVITY, REAL
from tests.quay.motion import FPS, Key, at, plan
from tests.quay.moves import REACH, STANDING, Leap, Stand

PUSH = frozenset({"push-long", "push-short", "push-speed"})
AIR = frozenset({"air-floaty", "air-snappy"})
LANDING = frozenset({"landing-stiff", "landing-mushy"})
KIND = {
    MendWay.REAL_TIME: PUSH | AIR,
    MendWay.FLIGHT: PUSH,
    MendWay.PUSH: PUSH | AIR,
    MendWay.CROUCH: PUSH,
    MendWay.HEIGHT: AIR,
    MendWay.ABSORB: LANDING,
    MendWay.SINK: LANDING,
}
"""The findings of which each way must leave none. Mends that redraw an eased push, or that are no move of keys, are not
followed."""


@dataclass(frozen=True, slots=True)
class Followed:
    """One mend that was followed; faults: findings that it leaves or brings and should not."""

    seed: int
    way: MendWay
    faults: tuple[str, ...]


def followed(seed: int) -> tuple[Followed, ...]:
    """Follow each mend of a seeded jump, and audit the result."""
    leap = leap_of(seed)
    audit = audit_track(drawn(keys_of(leap)), REAL)
    return tuple(
        Followed(seed, mend.way, _faults(jump, audit_track(follow(leap, mend), REAL), mend))
        for jump in audit.jumps[: len(audit.jumps) == 1]
        for mend in jump.mends
        if mend.way in KIND
    )


def _faults(jump: Jump, after: Audit, mend: Mend) -> tuple[str, ...]:
    if len(after.jumps) != 1:
        return ("it is no jump any more",)
    ranks = {finding.code: finding.rank for finding in judge(_known(jump), REAL).findings}
    return tuple(
        f"{finding.code} is left" if finding.code in KIND[mend.way] else f"{finding.code} is new"
        for finding in after.jumps[0].findings
        if finding.code in KIND[mend.way] or (finding.rank and finding.rank > ranks.get(finding.code, -1))
    )


def _known(jump: Jump) -> Jump:
    """Return the jump as surely one, and its landing's heights known exactly, as on keys: so what doubt and errors hid
    is shown.
    """
    sure, absorb = replace(jump, certainty=Certainty.SURE, certainty_value=1.0), jump.absorb
    return sure if absorb is None else replace(sure, absorb=replace(absorb, ratio=replace(absorb.ratio, error=0.0)))


def leap_of(seed: int) -> Leap:
    """Return a leap whose push, flight and absorb are drawn at random, so that they rarely belong together."""
    rng = np.random.default_rng([seed, 8])
    rise, push = int(rng.integers(6, 16)), int(rng.integers(3, 13))
    level = rng.random() < 0.5
    fall = rise if level else max(5, rise + int(rng.integers(-2, 4)))
    pace, absorb, absorb_real = rng.uniform(0.55, 1.7), int(rng.integers(3, 10)), rng.uniform(2.0, 9.0)
    sunk = 0.5 * GRAVITY * pace**2 * fall / FPS**2 * absorb_real
    return Leap(
        push=push,
        rise=rise,
        fall=fall,
        absorb=absorb,
        distance=float(rng.choice([0.0, rng.uniform(0.3, 2.0)])),
        pace=float(pace),
        push_real=float(np.clip(push * rng.uniform(0.45, 2.2), 2.0, 1.4 * rise)),
        absorb_real=float(absorb_real),
        hold=int(rng.integers(2, 6)),
        upright=max(STANDING, REACH - sunk + 0.02),  # after the lowest point a body rises again
    )


def keys_of(leap: Leap) -> list[Key]:
    """Return the keys of the shot: it stands, leaps and stands."""
    return list(plan((Stand(9), leap, Stand(8)), x=0.0, ground=0.0, gravity=GRAVITY).keys)


def drawn(keys: list[Key]) -> Track:
    """Return the track as the curves between the keys draw it."""
    frames = np.arange(math.ceil(keys[0].frame), math.floor(keys[-1].frame) + 1.0)
    path = np.array([at(keys, frame) for frame in frames])
    points = np.column_stack([path[:, 0], 0.0 * frames, path[:, 1]])
    return Track("root", FPS, frames, points, key_frames=[key.frame for key in keys], interpolation="bezier")


def follow(leap: Leap, mend: Mend) -> Track:
    """Return the shot with its keys moved, or its poses drawn anew, as the mend says."""
    if mend.keep is not None:
        return drawn(moved(keys_of(leap), mend))
    frames = dict(mend.frames)
    flight = leap.rise + leap.fall
    height, drop = (0.5 * GRAVITY * leap.pace**2 * (side / FPS) ** 2 for side in (leap.rise, leap.fall))
    if mend.way is MendWay.CROUCH:
        return drawn(keys_of(replace(leap, push_real=mend.depth * leap.rise / height)))
    if mend.way is MendWay.SINK:
        sunk = frames["absorbed"] - (10.0 + leap.dip + leap.hold + leap.push + flight)
        return drawn(keys_of(replace(leap, absorb=int(sunk), absorb_real=mend.sink * leap.fall / drop)))
    assert mend.way is MendWay.HEIGHT
    return drawn(raised(keys_of(leap), mend))


def raised(keys: list[Key], mend: Mend) -> list[Key]:
    """Return the poses drawn anew: as high and from as deep as the mend says, each stretch at constant force."""
    takeoff = next(n for n, key in enumerate(keys) if key.after[1] > 0.0)
    crouch, landing, absorbed = keys[takeoff - 1], keys[takeoff + 2], keys[takeoff + 3]
    low, top = keys[takeoff].z - mend.depth, keys[takeoff].z + mend.height
    frame = dict(mend.frames)["apex"]
    push, rise = keys[takeoff].frame - crouch.frame, frame - keys[takeoff].frame
    fall, absorb = landing.frame - frame, absorbed.frame - landing.frame
    along = (landing.x - keys[takeoff].x) / (rise + fall)
    new = [replace(key, z=low) if key.z == crouch.z else key for key in keys[:takeoff]]
    new.append(replace(keys[takeoff], before=(along, 2.0 * mend.depth / push), after=(along, 2.0 * mend.height / rise)))
    new.append(Key(frame, keys[takeoff].x + along * rise, top, (along, 0.0), (along, 0.0)))
    new.append(
        replace(landing, before=(along, -2.0 * (top - landing.z) / fall), after=(along, -2.0 * mend.sink / absorb))
    )
    new.append(replace(absorbed, z=landing.z - mend.sink))
    return new + [replace(key, z=max(key.z, landing.z - mend.sink)) for key in keys[takeoff + 4 :]]


def moved(keys: list[Key], mend: Mend) -> list[Key]:
    """Return each event's key on its new frame, handles scaled with their side; what lies outside moves along."""
    old, new = ([frame for _, frame in side] for side in (mend.was, mend.frames))
    assert {*old} <= {key.frame for key in keys}, "a mend names a frame without a key"
    frames = []
    for key in keys:
        outside = min(key.frame - old[0], 0.0) + max(key.frame - old[-1], 0.0)
        frames.append(outside + float(np.interp(key.frame - outside, old, new)))
    gaps = np.diff([key.frame for key in keys]) / np.diff(frames)
    sides = [(gaps[max(n - 1, 0)], gaps[min(n, len(gaps) - 1)]) for n in range(len(keys))]
    return [
        replace(
            key,
            frame=frame,
            before=tuple(slope * before for slope in key.before),
            after=tuple(slope * after for slope in key.after),
        )
        for key, frame, (before, after) in zip(keys, frames, sides, strict=True)
    ]
