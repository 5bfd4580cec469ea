"""How far contacts read from feet lie from a simulated body's, and how often the stated error holds them.

`python -m tests.truth.contact_errors` prints the table that `UNSURE` (analysis/feet/contacts.py), `SOFT` and
`SOFT_GIVEN` (analysis/feet/ground.py) were chosen by: the smallest for which two stated errors hold nine in ten
contacts of every kind. The truth is the engine's own ground force, never a formula of ours.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from leapwright.analysis import GRAVITIES, Track
from leapwright.analysis.feet import feet_of

from .jumper import Push, Simulated, simulate

FPS = (24.0, 30.0, 48.0, 60.0, 120.0)
NOISE = (0.0, 0.001, 0.003, 0.006)


@dataclass(frozen=True, slots=True)
class Read:
    """One contact: its kind, takeoff or landing, how far it is read from the truth, and the stated error; frames."""

    kind: str
    off: float
    error: float


@cache
def bodies(count: int) -> tuple[Simulated, ...]:
    """So many bodies that leave the ground for 0.15 s at least, on four worlds."""
    rng, found = np.random.default_rng(0), []
    while len(found) < count:
        world = "earth" if rng.random() < 0.7 else str(rng.choice(["mars", "moon", "venus"]))
        crouch, force, hold, give = rng.uniform((0.7, 1.8, 0.1, 0.15), (1.05, 2.8, 0.6, 0.35))
        try:
            run = simulate(Push(crouch, force, GRAVITIES[world], hold, give))
        except RuntimeError:
            continue
        if run.landing - run.takeoff >= 0.15:
            found.append(run)
    return tuple(found)


def reads(runs: tuple[Simulated, ...], *, fps: tuple[float, ...] = FPS, tries: int = 2) -> Iterator[Read]:
    """Read the takeoff and the landing of each body, at every rate, with noise, on twos and threes, over a ground."""
    rng = np.random.default_rng(1)
    for run in runs:
        for rate in (rate for rate in fps for _ in range(tries)):
            phase = float(rng.random())
            track = run.track(fps=rate, phase=phase, with_feet=True)
            truth = [run.frame(second, fps=rate, phase=phase) for second in (run.takeoff, run.landing)]
            for noise in NOISE:
                noisy = replace(track, feet=track.feet + rng.normal(0.0, noise, track.feet.shape)) if noise else track
                yield from _read(f"{rate:g} fps, {1000 * noise:g} mm", noisy, truth)
            yield from _read(f"{rate:g} fps, ground given", replace(track, ground=0.0), truth)
            for step in (2, 3) if rate <= 30.0 else ():
                yield from _read(f"{rate:g} fps, held {step}", _held(track, step), truth, step=step, held=True)


def _read(kind: str, track: Track, truth: list[float], *, step: int = 1, held: bool = False) -> Iterator[Read]:
    gap = feet_of(track, step=step, held=held).gap_over(*truth)
    yield Read(kind, gap.takeoff - truth[0], gap.takeoff_error)
    yield Read(kind, gap.landing - truth[1], gap.landing_error)


def _held(track: Track, step: int) -> Track:
    rows = np.arange(len(track.frames)) // step * step
    return replace(track, positions=track.positions[rows], feet=track.feet[rows])


def by_kind(found: Iterator[Read]) -> dict[str, np.ndarray]:
    """Gather (n, 2) offs and errors by kind, sorted by name."""
    rows: dict[str, list[tuple[float, float]]] = {}
    for read in found:
        rows.setdefault(read.kind, []).append((read.off, read.error))
    return {kind: np.array(rows[kind]) for kind in sorted(rows)}


def main() -> None:
    """Print the table."""
    print(f"{'kind':24}{'n':>5}{'median':>9}{'95 in 100':>11}{'stated':>9}{'in two':>9}")
    for kind, rows in by_kind(reads(bodies(40))).items():
        off, error = np.abs(rows).T
        held = np.mean(off <= 2.0 * error)
        print(f"{kind:24}{len(off):5}{np.median(off):9.2f}{np.percentile(off, 95):11.2f}"
              f"{np.median(error):9.2f}{100.0 * held:8.0f} %")  # fmt: skip


if __name__ == "__main__":
    main()
