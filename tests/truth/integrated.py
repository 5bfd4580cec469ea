"""Seeded jumps of people's size whose pushes and landings are random forces, summed: `make(way, fps, noise, seed)`.

The force is there from the bottom or sets in after a hold, and wanders as it likes. WAYS say how it ends:

drawn      at once, and sets in at once: what an animator keys
recorded   along a line, so that speed peaks LEAD before takeoff, as on force plates (five records, BMC
           laboratory, CC BY 4.0: 22 to 27 ms)
any        within 0 to 150 ms, with a bend at its end or with none

Truth is the instant without force.
"""

import numpy as np
from leapwright.analysis import Track
from leapwright.analysis.world import STANDARD_GRAVITY

from .answer import Motion, Truth
from .forces import Body, Jumped, leap

RATES = (24.0, 30.0, 60.0)
NOISES = (0.0, 0.0002, 0.0015, 0.003, 0.006)
"""Meters, one standard deviation of each coordinate."""
LEAD = (0.015, 0.035)
"""Seconds from the push's greatest speed to feet off: the plates' 22 to 27 ms and 8 ms either way (ours)."""
RATIO = (0.6, 1.8)
WAYS = {"drawn": (0.0, 0.0, 0.0), "recorded": (0.12, 0.06, 1.0), "any": (0.15, 0.06, None)}
"""The longest fade before takeoff and onset after landing, seconds, and how straight both are (see forces.push)."""


def make(way: str, fps: float, noise: float, seed: int, *, ratio: tuple[float, float] = RATIO) -> Motion:
    """Return one jump, sampled at this rate from a random instant on, with this noise.

    ratio: least and most push ratio.
    """
    rng = np.random.default_rng([list(WAYS).index(way), int(fps), round(noise * 1e6), seed])
    jumped = _jump(rng, way, ratio)
    (body,) = jumped.bodies
    first, phase = float(rng.choice([0, 1, 101])), rng.uniform()
    frames = first + np.arange(int(jumped.path.starts[-1] * fps))
    heights = jumped.path.at((frames - first + phase) / fps)
    events = first - phase + fps * jumped.events[0]
    speed = rng.choice([0.0, rng.uniform(0.3, 2.0)])
    along = speed * np.clip(frames - events[1], 0.0, events[3] - events[1]) / fps
    positions = np.column_stack([along, np.zeros_like(along), heights]) + rng.normal(0.0, noise, (len(frames), 3))
    truth = Truth(*map(float, events), body.gravity, body.distance, body.height, body.drop)
    kind = f"{way}, {fps:g} fps, {1000 * noise:g} mm"
    track = Track(f"{kind} {seed}", fps, frames, positions)
    return Motion(kind, seed, track, (truth,), path=jumped.path, offset=first - phase)


def _jump(rng: np.random.Generator, way: str, ratio: tuple[float, float]) -> Jumped:
    """Draw jumps; recorded ones until one's push peaks in speed as early before takeoff as people's do."""
    while True:
        jumped = leap(rng, [draw(rng, way, ratio=ratio)], pauses=[], ends=tuple(rng.uniform(0.4, 1.0, 2)))
        if way != "recorded" or LEAD[0] <= lead(jumped) <= LEAD[1]:
            return jumped


def lead(jumped: Jumped) -> float:
    """Return seconds from the greatest speed of the first push to its end."""
    drive = next(piece for piece in jumped.path.pieces if piece.name == "push")
    times = np.linspace(0.0, drive.seconds, 1001)
    return drive.seconds - float(times[np.argmax(drive.speed(times))])


def draw(rng: np.random.Generator, way: str = "any", *, ratio: tuple[float, float] = RATIO) -> Body:
    """Return a person of ordinary size; a jump of 15 cm to 1 m at 0.8 to 1.25 times real pace."""
    fade, onset, straight = WAYS[way]
    height = float(np.exp(rng.uniform(*np.log([0.15, 1.0]))))
    lift = rng.uniform(0.04, 0.11)
    distance = float(np.clip(height / rng.uniform(*ratio), 0.15, 0.65))
    return Body(
        stand=rng.uniform(0.8, 1.1),
        distance=distance,
        height=height,
        drop=height * (1.0 + rng.choice([0.0, rng.uniform(-0.3, 0.3)])),
        absorb=max(distance * rng.uniform(0.5, 1.0), 1.5 * lift),
        lift=lift,
        hold=float(rng.choice([0.0, rng.uniform(0.1, 0.4)])),
        fade=rng.uniform(0.0, fade),
        onset=rng.uniform(0.0, onset),
        gravity=STANDARD_GRAVITY * rng.uniform(0.8, 1.25) ** 2,
        straight=straight,
    )
