"""Heights of bodies whose feet stay down: squats, raises, sitting, breath, stillness. Seconds to meters."""

import numpy as np
from scipy.interpolate import CubicSpline

from .pieces import Path, Piece, Profile, ease, hold


def trapezoid_ease(name: str, start: float, end: float, seconds: float, *, ramp: float) -> Piece:
    """Move between two rests, acceleration as two trapezoids whose ramps are `ramp` of each half."""
    s = np.linspace(0, 1, 401)
    half = (s * 2) % 1.0
    pull = np.clip(np.minimum(half, 1 - half) / (ramp / 2), 0, 1) * np.where(s < 0.5, 1.0, -1.0)
    speed = np.concatenate([[0], np.cumsum((pull[1:] + pull[:-1]) / 2)])
    way = CubicSpline(s, np.concatenate([[0], np.cumsum((speed[1:] + speed[:-1]) / 2)]))
    rise = (end - start) / way(1.0)
    slope = way.derivative()
    return Piece(
        name,
        seconds,
        lambda x: start + rise * way(x / seconds),
        lambda x: rise * slope(x / seconds) / seconds,
    )


def between(
    rng: np.random.Generator, low: float, high: float, spans: tuple[float, float], rests: tuple[float, float]
) -> Path:
    """Go between two heights a few times, by one profile; half of the rests are none at all."""
    shape = str(rng.choice(["cosine", "cubic", "jerk", "trapezoid"]))
    ramp, brief = rng.uniform(0.4, 1.0), rng.uniform() < 0.5
    pieces = [hold("", high, rng.uniform(0.2, 1.0))]
    at = high
    for _ in range(2 * int(rng.integers(1, 5))):
        to, span = low + high - at, rng.uniform(*spans)
        if shape == "trapezoid":
            pieces.append(trapezoid_ease("", at, to, span, ramp=ramp))
        else:
            pieces.append(ease("", at, to, span, shape=shape))
        if not brief:
            pieces.append(hold("", to, rng.uniform(*rests)))
        at = to
    return Path((*pieces, hold("", at, rng.uniform(0.2, 1.0))))


def squat(rng: np.random.Generator) -> Profile:
    """Squat one to four times, 15 to 50 cm deep, 0.5 to 1.5 s each way."""
    return between(rng, -rng.uniform(0.15, 0.5), 0.0, (0.5, 1.5), (0.05, 0.8)).at


def calf_raise(rng: np.random.Generator) -> Profile:
    """Rise on the toes, 3 to 10 cm, 0.25 to 0.7 s each way."""
    return between(rng, rng.uniform(0.03, 0.10), 0.0, (0.25, 0.7), (0.05, 0.5)).at


def reach(rng: np.random.Generator) -> Profile:
    """Reach for a shelf: 5 to 15 cm up, stay, come down."""
    return between(rng, rng.uniform(0.05, 0.15), 0.0, (0.5, 1.2), (0.3, 1.0)).at


def sit(rng: np.random.Generator) -> Profile:
    """Sit down and stand up, 30 to 50 cm, 0.7 to 1.8 s each way, a rest between."""
    path = between(rng, -rng.uniform(0.3, 0.5), 0.0, (0.7, 1.8), (0.3, 1.0))
    return path.at


def breath(rng: np.random.Generator) -> Profile:
    """Breathe: 0.5 to 2 cm, 12 to 25 a minute."""
    size, rate, phase = rng.uniform(0.005, 0.02), rng.uniform(0.2, 0.42), rng.uniform(0, 2 * np.pi)
    return lambda t: size / 2 * np.sin(2 * np.pi * rate * t + phase)


def stillness(rng: np.random.Generator) -> Profile:
    """Stand still."""
    return lambda t: np.zeros_like(t)


def wander(rng: np.random.Generator) -> Profile:
    """Return a random smooth curve: noise filtered to 0.2 to 2.5 Hz, 5 to 50 cm from lowest to highest."""
    t = np.arange(-2.0, 30.0, 0.01)
    rates = np.fft.rfftfreq(len(t), 0.01)
    band, order = np.exp(rng.uniform(*np.log([0.2, 2.5]))), rng.choice([2, 4, 8])
    gain = 1 / np.sqrt(1 + (rates / band) ** (2 * order + 2))
    curve = np.fft.irfft(np.fft.rfft(rng.normal(size=len(t))) * gain, len(t))
    return CubicSpline(t, curve * rng.uniform(0.05, 0.5) / np.ptp(curve))
