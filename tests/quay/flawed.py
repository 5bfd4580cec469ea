"""A shot for each finding, for the manual's pictures: Brindle's hop with one thing drawn wrong.

Where a shot of the demo has the finding, that shot is taken. Frames count from 1, at 24 a second; lengths are in
meters.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from .motion import Key, Motion, at
from .moves import Leap
from .shots import BARGE, BEGIN, SHOTS, Shot

Change = Callable[[Motion], None]
Curve = Callable[[float], float]


@dataclass(frozen=True, slots=True)
class Flawed(Shot):
    """A shot whose motion is changed after it was worked out."""

    change: Change = lambda motion: None

    def motion(self) -> Motion:
        """Work out the keys, and change them."""
        motion = Shot.motion(self)
        self.change(motion)
        return motion


def _hop(says: str, change: Change = lambda motion: None, *, drawn: str = "arcs", **leap: float) -> Flawed:
    move = Leap(**({"push": 6, "rise": 8, "fall": 8, "absorb": 6, "distance": 1.35} | leap))
    return Flawed("", says, (BEGIN, move), (), x=3.75, ground=BARGE, drawn=drawn, change=change)


def _redrawn(motion: Motion, *, up: Callable[[float, float], float] | None = None, along: Curve | None = None) -> None:
    """Key every frame anew: up(frame, height) and along(frame) say where; slopes are those to the keys beside it."""
    last = int(motion.last.frame)
    old = [at(motion.keys, frame) for frame in range(1, last + 1)]
    places = [
        (x if along is None else along(frame), z if up is None else up(frame, z))
        for frame, (x, z) in enumerate(old, start=1)
    ]
    steps = [(b[0] - a[0], b[1] - a[1]) for a, b in zip(places, places[1:], strict=False)]
    before, after = [(0.0, 0.0), *steps], [*steps, (0.0, 0.0)]
    rows = zip(range(1, last + 1), places, before, after, strict=True)
    motion.keys = [Key(frame, x, z, came, goes) for frame, (x, z), came, goes in rows]


def _pushed(shape: Curve) -> Change:
    """Draw the push as a shape of its time, both from 0 to 1."""

    def change(motion: Motion) -> None:
        (jump,) = motion.jumps
        low, rise = at(motion.keys, jump.crouch)[1], jump.push_distance

        def up(frame: float, height: float) -> float:
            within = jump.crouch <= frame <= jump.takeoff
            return low + rise * shape((frame - jump.crouch) / (jump.takeoff - jump.crouch)) if within else height

        _redrawn(motion, up=up)

    return change


def _dented(motion: Motion) -> None:
    """Let the path sag on the way up."""
    (jump,) = motion.jumps
    middle = jump.takeoff + 4
    _redrawn(motion, up=lambda frame, height: height - 0.12 * max(0.0, 1.0 - ((frame - middle) / 2.5) ** 2))


def _held_at_the_top(motion: Motion) -> None:
    """Hold the apex for six frames."""
    (jump,) = motion.jumps
    old, top = list(motion.keys), at(motion.keys, jump.apex)
    motion.keys = [replace(key, frame=key.frame + 6 * (key.frame > jump.apex)) for key in motion.keys]
    motion.plants = [replace(p, first=p.first + 6) if p.first > jump.apex else p for p in motion.plants]
    motion.jumps = [replace(jump, landing=jump.landing + 6, absorbed=jump.absorbed + 6)]

    def was(frame: float) -> tuple[float, float]:
        held = jump.apex <= frame <= jump.apex + 6
        return top if held else at(old, frame if frame < jump.apex else frame - 6)

    (x0, _), (x1, _), air = at(old, jump.takeoff), at(old, jump.landing), jump.landing + 6 - jump.takeoff

    def along(frame: float) -> float:
        in_air = jump.takeoff <= frame <= jump.landing + 6
        return x0 + (x1 - x0) * (frame - jump.takeoff) / air if in_air else was(frame)[0]

    _redrawn(motion, up=lambda frame, _: was(frame)[1], along=along)


def _early_top(motion: Motion) -> None:
    """Put the apex four frames early."""
    (jump,) = motion.jumps
    rise, fall = jump.apex - 4 - jump.takeoff, jump.landing - jump.apex + 4
    moved = []
    for key in motion.keys:
        if key.frame == jump.takeoff:
            key = replace(key, after=(key.after[0], 2 * jump.jump_height / rise))
        elif key.frame == jump.apex:
            (x, z), far = (key.x, key.z), key.after[0]
            key = replace(key, frame=jump.apex - 4, x=x - 4 * far, z=z)
        elif key.frame == jump.landing:
            key = replace(key, before=(key.before[0], -2 * jump.drop_height / fall))
        moved.append(key)
    motion.keys = moved


def _flat_handles(motion: Motion) -> None:
    """Ease every pose in and out."""
    motion.keys = [replace(key, before=(0.0, 0.0), after=(0.0, 0.0)) for key in motion.keys]


def _swerving(motion: Motion) -> None:
    """Turn aside in the air."""
    (jump,) = motion.jumps
    air = jump.landing - jump.takeoff
    motion.aside = lambda frame: 0.5 * min(max((frame - jump.takeoff) / air, 0.0), 1.0) ** 2
    _redrawn(motion)


def _stopping(motion: Motion) -> None:
    """Stand still over the ground for five frames of the flight."""
    (jump,) = motion.jumps
    first, last = jump.takeoff + 6, jump.takeoff + 11
    (x0, _), (x1, _) = at(motion.keys, jump.takeoff), at(motion.keys, jump.landing)
    moving = jump.landing - jump.takeoff - (last - first)

    def along(frame: float) -> float:
        if not jump.takeoff <= frame <= jump.landing:
            return at(motion.keys, frame)[0]
        since = frame - jump.takeoff
        return x0 + (x1 - x0) * (min(since, 6) + max(since - 11, 0)) / moving

    _redrawn(motion, along=along)


def _shod(off: float = 0.0, on: float = 0.0) -> Change:
    """Let the hooves leave, and touch, so many frames late; early below 0."""

    def change(motion: Motion) -> None:
        (jump,) = motion.jumps
        motion.plants = [
            replace(p, last=p.last + off) if p.last == jump.takeoff
            else replace(p, first=p.first + on) if p.first == jump.landing else p
            for p in motion.plants
        ]  # fmt: skip

    return change


def _after_landing(step: float = 0.0, sink: float = 0.0) -> Change:
    """Let the planted hooves slide by so much a frame for seven frames, or lie so deep for three, after the landing."""

    def change(motion: Motion) -> None:
        (jump,) = motion.jumps
        kept = [p for p in motion.plants if p.first != jump.landing]
        for plant in (p for p in motion.plants if p.first == jump.landing):
            for n in range(8):
                first, deep = jump.landing + n, sink if 2 <= n <= 4 else 0.0
                kept.append(replace(plant, first=first, last=first + 0.5, x=plant.x + step * n, z=plant.z - deep))
            kept.append(replace(plant, first=jump.landing + 8, x=plant.x + step * 7))
        motion.plants = kept

    return change


def _cut_in_the_push(motion: Motion) -> None:
    """Begin amid the push."""
    (jump,) = motion.jumps
    early = jump.crouch + 1
    _redrawn(motion)
    motion.keys = [replace(key, frame=key.frame - early) for key in motion.keys if key.frame > early]
    motion.plants = [replace(p, first=max(p.first - early, 1), last=p.last - early) for p in motion.plants]
    moved = {name: getattr(jump, name) - early for name in ("crouch", "takeoff", "apex", "landing", "absorbed")}
    motion.jumps = [replace(jump, **moved)]


DEMO = {"air-floaty": "tq020_crate_floaty", "push-short": "tq020_crate_floaty", "push-speed": "tq020_crate_floaty",
        "air-snappy": "tq040_rope_snappy", "push-long": "tq050_bucket_late", "travel-drift": "tq060_long_leap",
        "landing-stiff": "tq070_stiff_landing", "no-push": "tq100_off_the_edge"}  # fmt: skip
"""Shots of the demo that have a finding."""
DRAWN = {
    "push-slows": _hop("A push that is spent before the hooves leave", _pushed(lambda s: 1 - (1 - s) ** 2),
                       push=3, push_real=8, rise=10, fall=10, pace=0.7),
    "push-eases": _hop("A push that dwells in the crouch", _pushed(lambda s: s**4), push=12, push_real=6),
    "push-beyond": _hop("A hop as high out of half a crouch", push=3),
    "arc-hang": _hop("A hop that is held at the top", _held_at_the_top),
    "arc-skew": _hop("A hop whose top comes early", _early_top),
    "arc-broken": _hop("A hop that sags on its way up", _dented),
    "arc-between": _hop("Right poses, each eased in and out", _flat_handles, rise=10, fall=10),
    "travel-swerve": _hop("A hop that turns aside in the air", _swerving),
    "travel-stop": _hop("A hop that stands still over the ground", _stopping),
    "landing-mushy": _hop("A landing that sinks on and on", absorb=20, absorb_real=6),
    "contact-early": _hop("Hooves that leave before the body does", _shod(off=-4)),
    "contact-late": _hop("Hooves that still hover when the body has landed", _shod(on=4)),
    "contact-slides": _hop("Hooves that slide after the landing", _after_landing(step=0.03)),
    "contact-sinks": _hop("Hooves that go through the deck", _after_landing(sink=0.1)),
    "cannot-tell": _hop("A shot that begins in the midst of the push", _cut_in_the_push),
}
FLAWED = {code: next(shot for shot in SHOTS if shot.name == name) for code, name in DEMO.items()}
FLAWED |= {code: replace(shot, name=f"tq9_{code.replace('-', '_')}") for code, shot in DRAWN.items()}
"""The shot that shows each finding, by its code."""
