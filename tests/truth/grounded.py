"""Seeded motion of a body that never leaves what carries it: `make(kind, seed)`; kinds in KINDS.

Rigid and eased shapes in numpy, at the sizes and paces of people of 0.5 to 1.6 times their size (times as
the square root of it); the ranges are common practice, no source, and no force is ever below a tenth of
the weight where a body stands on its feet. Half of the tracks are noisy, up to 6 mm; they come as samples,
baked, keyed on every few frames, or keyed at their extremes.
"""

import itertools
import zlib
from collections.abc import Callable

import numpy as np
from leapwright.analysis import Track
from leapwright.analysis.world import STANDARD_GRAVITY
from scipy.interpolate import CubicSpline, PchipInterpolator

from . import raised
from .answer import Motion
from .moves import NEAR_FLIGHT, Profile, moves, safe


def walk(rng: np.random.Generator) -> Profile:
    """Vault over a rigid leg of 0.9 m, steps of 0.5 to 0.8 m; the change of legs rounds the cusp off."""
    half, rate = rng.uniform(0.25, 0.4), rng.uniform(1.5, 2.2)
    x = np.arange(-8, 40, 1 / 240) * rate
    raw = np.sqrt(0.81 - (half * (2 * (x % 1.0) - 1)) ** 2) - 0.9
    width = max(int(240 * rng.uniform(0.12, 0.25) / rate), 3)
    window = np.hanning(width + 2)
    return CubicSpline(x / rate, np.convolve(raw, window / window.sum(), mode="same"))


def grounded_run(rng: np.random.Generator) -> Profile:
    """Run with one foot always down: a bob of 3 to 7 cm whose downward pull stays under the weight."""
    rate = rng.uniform(2.2, 3.2)
    most = NEAR_FLIGHT * STANDARD_GRAVITY / (2 * np.pi * rate) ** 2
    size, phase = min(rng.uniform(0.015, 0.035), most / 1.6), rng.uniform(0, 2 * np.pi)
    second = 0.15 * size * rng.uniform(0, 1)
    return lambda t: size * np.sin(2 * np.pi * rate * t + phase) + second * np.sin(4 * np.pi * rate * t)


def squat(rng: np.random.Generator) -> Profile:
    """Down 15 to 50 cm and up, 0.6 to 1.4 s each way, one to three times."""
    deep, times = rng.uniform(0.15, 0.5), int(rng.integers(1, 4))
    spans = [safe(rng, deep, (0.6, 1.4)) for _ in range(2 * times)]
    return moves(rng, [0.0, -deep] * times + [0.0], spans, (0.1, 0.8))


def quick_squat(rng: np.random.Generator) -> Profile:
    """Down 8 to 40 cm and up as fast as the feet allow."""
    deep = rng.uniform(0.08, 0.4)
    return moves(rng, [0.0, -deep, 0.0], [safe(rng, deep, (0.1, 0.3)) for _ in range(2)], (0.05, 0.3))


def stairs(rng: np.random.Generator) -> Profile:
    """Up or down 3 to 10 stairs of 15 to 20 cm, 0.4 to 0.8 s each, with a bob."""
    count, way, every = int(rng.integers(3, 11)), rng.choice([-1, 1]) * rng.uniform(0.15, 0.2), rng.uniform(0.4, 0.8)
    dip = rng.uniform(0.0, 0.03)
    spans = [max(every, safe(rng, way, (0.3, 0.5)))] * count
    base = moves(rng, list(way * np.arange(count + 1)), spans, (0.02, 0.1))
    return lambda t: base(t) - dip * np.sin(np.pi * t / every) ** 2


def elevator(rng: np.random.Generator) -> Profile:
    """Ride one to three stories up and down, 1 to 2.5 m/s."""
    high = 3.0 * int(rng.integers(1, 4))
    span = high / rng.uniform(0.6, 1.5)
    return moves(rng, [0.0, high, 0.0], [span, span], (0.5, 2.0))


def idle(rng: np.random.Generator) -> Profile:
    """Breathe and sway: two slow sines of millimeters to 2 cm and a drift."""
    sizes, rates = rng.uniform(0.001, 0.01, 3), np.array([0.25, 0.4, 0.1]) * rng.uniform(0.7, 1.4, 3)
    phases = rng.uniform(0, 2 * np.pi, 3)
    return lambda t: np.sin(2 * np.pi * np.multiply.outer(t, rates) + phases) @ sizes


def sit(rng: np.random.Generator) -> Profile:
    """Sit down 30 to 50 cm, stay, and stand up."""
    deep = rng.uniform(0.3, 0.5)
    return moves(rng, [0.0, -deep, 0.0], [safe(rng, deep, (0.7, 1.6)) for _ in range(2)], (0.3, 1.5))


def get_up(rng: np.random.Generator) -> Profile:
    """Rise from sitting or kneeling and stay up."""
    deep = rng.uniform(0.2, 0.6)
    return moves(rng, [-deep, 0.0], [safe(rng, deep, (0.5, 1.6))], (0.3, 1.0))


def up_and_back(rng: np.random.Generator) -> Profile:
    """Rise 15 to 60 cm from a seat or from lying down, and sink back at once: half up, or up to be seen."""
    high = rng.uniform(0.15, 0.6)
    spans = [safe(rng, high, (0.4, 1.6)), safe(rng, high, (0.4, 1.6))]
    return moves(rng, [0.0, high, 0.0], spans, (0.0, 0.4))


def toes(rng: np.random.Generator) -> Profile:
    """Rise on the toes or reach up, 3 to 10 cm, 0.3 to 1 s each way, one to three times."""
    high, times = rng.uniform(0.03, 0.1), int(rng.integers(1, 4))
    return moves(rng, [0.0, high] * times + [0.0], [rng.uniform(0.3, 1.0) for _ in range(2 * times)], (0.1, 1.0))


def bob(rng: np.random.Generator) -> Profile:
    """Dance on the spot: a sine of 3 to 12 cm at 0.8 to 2 Hz, pulled down by less than gravity, no stand."""
    rate, phase = rng.uniform(0.8, 2.0), rng.uniform(0, 2 * np.pi)
    size = min(rng.uniform(0.015, 0.06), 0.5 * STANDARD_GRAVITY / (2 * np.pi * rate) ** 2)
    return lambda t: size * np.sin(2 * np.pi * rate * t + phase)


def dip(rng: np.random.Generator) -> Profile:
    """Give way by 3 to 20 cm and recover, with a rise past the stand of up to 2 cm, and settle."""
    deep, over = rng.uniform(0.03, 0.2), rng.uniform(0.0, 0.02)
    spans = [safe(rng, deep, (0.15, 0.5)), safe(rng, deep + over, (0.25, 0.8)), safe(rng, over, (0.2, 0.5))]
    return moves(rng, [0.0, -deep, over, 0.0], spans, (0.05, 0.3))


def crouched_walk(rng: np.random.Generator) -> Profile:
    """Sink by 15 to 40 cm, walk there with a bob, and stand up."""
    deep, rate, size = rng.uniform(0.15, 0.4), rng.uniform(1.3, 2.0), rng.uniform(0.01, 0.04)
    long = rng.uniform(1.5, 3.0)
    base = moves(rng, [0.0, -deep, -deep, 0.0], [safe(rng, deep, (0.5, 1.0)), long, safe(rng, deep, (0.5, 1.0))],
                  (0.1, 0.3))  # fmt: skip
    return lambda t: base(t) + size / 2 * (1 - np.cos(2 * np.pi * rate * t)) * np.clip(-base(t) / deep, 0, 1)


def climb(rng: np.random.Generator) -> Profile:
    """Climb a ladder or a wall: 20 to 45 cm each 0.6 to 1.4 s, sagging a little between holds."""
    steps, sag = int(rng.integers(3, 8)), rng.uniform(0.0, 0.04)
    heights, spans = [0.0], []
    for _ in range(steps):
        reach = rng.uniform(0.2, 0.45)
        heights += [heights[-1] + reach, heights[-1] + reach - sag]
        spans += [safe(rng, reach, (0.5, 1.1)), safe(rng, sag, (0.2, 0.5))]
    return moves(rng, heights, spans, (0.05, 0.4))


def rise_to_walk(rng: np.random.Generator) -> Profile:
    """Get up from a crouch or a chair and walk on."""
    deep, pace, size = rng.uniform(0.15, 0.5), rng.uniform(1.5, 2.2), rng.uniform(0.01, 0.025)
    base, start = get_up(rng), rng.uniform(1.2, 2.4)
    return lambda t: (
        base(t) * deep / 0.4 + size * np.sin(2 * np.pi * pace * (t - start)) * np.clip((t - start) / 0.4, 0, 1)
    )


def camera(rng: np.random.Generator) -> Profile:
    """Return a hand-held camera: noise filtered to 0.3 to 1.5 Hz, 5 to 40 cm, its pull down under 0.6 g."""
    t = np.arange(-2.0, 40.0, 0.01)
    rates = np.fft.rfftfreq(len(t), 0.01)
    gain = 1 / (1 + (rates / rng.uniform(0.3, 1.5)) ** 6)
    curve = np.fft.irfft(np.fft.rfft(rng.normal(size=len(t))) * gain, len(t))
    curve *= rng.uniform(0.05, 0.4) / np.ptp(curve)
    pull = np.abs(np.gradient(np.gradient(curve, 0.01), 0.01)[5:-5]).max()
    return CubicSpline(t, curve * min(1.0, 0.6 * STANDARD_GRAVITY / pull))


KINDS: dict[str, Callable[[np.random.Generator], Profile]] = {
    "walk": walk,
    "run without flight": grounded_run,
    "squat": squat,
    "quick squat": quick_squat,
    "stairs": stairs,
    "elevator": elevator,
    "idle": idle,
    "sit and stand": sit,
    "get up": get_up,
    "up and back": up_and_back,
    "toes and reaches": toes,
    "bob loop": bob,
    "dip and recover": dip,
    "crouched walk": crouched_walk,
    "climb": climb,
    "rise to walk": rise_to_walk,
    "camera": camera,
    **raised.KINDS,
}
WORKED_OVER = ", worked over"
"""Ending of a kind's name: keyed at its extremes, with breakdowns in between as a jump has them."""
AT_THE_FEET = ", root at the feet"
"""Ending of a kind's name: followed at the root between the feet, which starts on the ground."""
CARRIED = ("stairs", "elevator", "climb", "climb and down", "platform", "steps and back")
"""Kinds in which feet rise, too."""
NAMES = (*KINDS, *(kind + WORKED_OVER for kind in KINDS), *(kind + AT_THE_FEET for kind in CARRIED))


def make(kind: str, seed: int) -> Motion:
    """Return the motion of this kind and seed, 2 to 8 s, the same on every machine; its truth is empty."""
    rng = np.random.default_rng([zlib.crc32(b"grounded " + kind.encode()), seed])
    fps = float(rng.choice([24.0, 30.0, 60.0]))
    size = float(np.exp(rng.uniform(*np.log([0.5, 1.6]))))
    stand, first = size * rng.uniform(0.8, 1.0), float(rng.choice([0, 1, 101, 1001]))
    frames = np.arange(int(rng.uniform(2.0, 8.0) * fps), dtype=float)
    profile, lag = KINDS[kind.removesuffix(WORKED_OVER).removesuffix(AT_THE_FEET)](rng), rng.uniform()
    if kind.endswith(AT_THE_FEET):
        stand = 0.0
    heights = stand + size * profile((frames + lag) / fps / np.sqrt(size))
    noise = float(rng.choice([0.0, rng.uniform(0.0, 0.006)]))
    along = rng.choice([0.0, rng.uniform(0.2, 1.8)]) * frames / fps
    positions = np.column_stack([along, np.zeros_like(along), heights]) + rng.normal(0.0, noise, (len(frames), 3))
    way = str(rng.choice(["samples", "baked", "every few", "extremes"]))
    if kind.endswith(WORKED_OVER):
        way = "worked over"
    frames = frames + first
    keys = {"samples": None, "baked": frames}.get(way, frames)
    joined = None if keys is None else "linear"
    if way in ("every few", "extremes", "worked over"):
        keys = _few(rng, frames, positions[:, 2], extremes=way != "every few")
        if way == "worked over":
            keys = _with_breakdowns(rng, keys)
        index = np.searchsorted(frames, keys)
        curve = CubicSpline if way == "every few" else PchipInterpolator
        frames = frames[: index[-1] + 1]
        positions, joined = curve(keys, positions[index])(frames), "bezier"
    track = Track(f"{kind} {seed}", fps, frames, positions, key_frames=keys, interpolation=joined)
    return Motion(kind, seed, track, ())


def _few(rng: np.random.Generator, frames: np.ndarray, heights: np.ndarray, *, extremes: bool) -> np.ndarray:
    """Return frames of keys: each second to fourth, or the ends, the extremes and where rests begin and end."""
    if not extremes:
        return frames[:: int(rng.integers(2, 5))]
    soft = np.convolve(np.pad(heights, 2, mode="edge"), np.ones(5) / 5, mode="valid")
    way = np.sign(np.where(np.abs(np.diff(soft)) < 1e-3, 0.0, np.diff(soft)))
    turns = np.flatnonzero(np.diff(way)) + 1
    return frames[np.unique(np.concatenate([[0], turns, [len(frames) - 1]]))]


def _with_breakdowns(rng: np.random.Generator, keys: np.ndarray) -> np.ndarray:
    """Return these keys, and none to two on whole frames between each two of them."""
    between = [
        rng.choice(np.arange(first + 1, last), size=min(int(rng.integers(0, 3)), int(last - first) - 1), replace=False)
        for first, last in itertools.pairwise(keys)
        if last - first > 1
    ]
    return np.unique(np.concatenate([keys, *between]))
