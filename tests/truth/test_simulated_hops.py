"""Hops of a simulated body (MuJoCo), by its center of mass and by its hip: at Earth's, the Moon's and Jupiter's
gravity, at half and twice the size. The engine's contacts are the truth."""

import itertools
from functools import cache

import numpy as np
import pytest
from leapwright.analysis import GRAVITIES, Certainty, Settings, World
from leapwright.analysis.certainty import certainty_of

from tests.bench.tally import CONTACTS, found_on, match

from .answer import Truth
from .jumper import Push, Simulated, simulate

WORLDS = ("earth", "moon", "jupiter")
PUSHES = ((0.9, 2.2), (1.0, 2.8))
"""Radians of crouch, and leg force in body weights."""
SIZES = (0.5, 1.0, 2.0)
CASES = tuple(itertools.product(WORLDS, PUSHES, SIZES, (False, True)))


@cache
def ran(world: str, push: tuple[float, float]) -> Simulated:
    return simulate(Push(crouch=push[0], force=push[1], gravity=GRAVITIES[world]))


@cache
def off(case: tuple, fps: float) -> dict[str, tuple[float, float]] | None:
    """Error and stated error of takeoff and landing, frames; None: not found as sure or likely."""
    world, push, size, hip = case
    run, phase = ran(world, push), 0.3
    track = run.track(fps=fps, phase=phase, hip=hip, size=size)
    left, top, touched = (run.frame(s, fps=fps, phase=phase, size=size) for s in (run.takeoff, run.apex, run.landing))
    truth = Truth(None, left, top, touched, None, None, None, size * run.jump_height, size * run.jump_height)
    found = found_on(track, Settings(World(gravity=GRAVITIES[world])))
    phases = match(truth, tuple(p for p in found if certainty_of(p.certainty) is not Certainty.DOUBTFUL))
    if phases is None:
        return None
    events = {name: getattr(phases, name) for name in CONTACTS}
    return {name: (event.frame - getattr(truth, name), event.frame_error) for name, event in events.items()}


@pytest.mark.parametrize(("world", "push", "size", "hip"), CASES)
def test_each_simulated_hop_is_sure_or_likely(world: str, push: tuple[float, float], size: float, hip: bool) -> None:
    assert all(off((world, push, size, hip), fps) is not None for fps in (24.0, 30.0, 60.0))


@pytest.mark.parametrize(("name", "hip"), list(itertools.product(CONTACTS, (False, True))))
def test_the_stated_errors_hold_the_contacts_of_the_engine(name: str, hip: bool) -> None:
    pairs = [off(case, fps) for case in CASES if case[3] is hip for fps in (24.0, 30.0, 60.0)]
    errors, stated = np.array([pair[name] for pair in pairs if pair is not None]).T
    # 95 % intervals hold 90 % at least; 0.05 frame for the engine's steps of half a millisecond.
    assert np.mean(np.abs(errors) <= 1.96 * stated + 0.05) >= 0.9, np.round(errors / stated, 1)
