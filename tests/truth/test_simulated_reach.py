"""What a simulated body (MuJoCo) pushes on Earth, the Moon and Jupiter, at half, once and twice its size.

The engine's own push ratio is the truth. Legs that limit the force give R = (1.6 + 1) g₀ / (g s) - 1 for a person
(world.py): 14.7 on the Moon, 0.03 on Jupiter, 4.2 at half the size, 0.3 at twice. What a body can do is not told,
what it cannot do is, and nothing of its push is at check or above.
"""

import itertools
from functools import cache

import pytest
from leapwright.analysis import GRAVITIES, Jump, Settings, World, audit_track

from .jumper import Push, Simulated, simulate

REACH = {("earth", 1.0): 1.6, ("earth", 0.5): 4.2, ("earth", 2.0): 0.3, ("moon", 1.0): 14.74, ("moon", 0.5): 30.48}
REACH |= {("moon", 2.0): 6.87, ("jupiter", 1.0): 0.0285, ("jupiter", 0.5): 1.057, ("jupiter", 2.0): -0.486}
"""By world and size, worked by hand with g of 9.80665, 1.62 and 24.79 m/s²."""
PUSHES = ((0.9, 2.2), (1.0, 2.8))
"""Radians of crouch, and leg force in body weights of its own world."""
CASES = tuple(itertools.product(REACH, PUSHES))
FAR = 1.0 / (1.0 - 2.0 * 0.2)
"""Times over its reach, and 0.4 over it, from which a ratio is told: known to a fifth, it must be two errors off."""


@cache
def ran(world: str, push: tuple[float, float]) -> Simulated:
    """Return the run of one push in one world."""
    return simulate(Push(crouch=push[0], force=push[1], gravity=GRAVITIES[world]))


def audited(case: tuple[str, float], push: tuple[float, float], fps: float) -> Jump:
    """Return the jump as it is audited in its world, at its size."""
    world, size = case
    track = ran(world, push).track(fps=fps, phase=0.3, size=size)
    return audit_track(track, Settings(world=World(gravity=GRAVITIES[world], size=size))).jumps[0]


@pytest.mark.parametrize("fps", [24.0, 60.0])
@pytest.mark.parametrize(("case", "push"), CASES)
def test_what_a_body_can_do_is_not_told_and_what_it_cannot_is(
    case: tuple[str, float], push: tuple[float, float], fps: float
) -> None:
    run, jump = ran(case[0], push), audited(case, push, fps)
    true = run.jump_height / run.push_distance
    told = [finding for finding in jump.findings if finding.code.startswith("push-")]
    assert jump.reach == pytest.approx(REACH[case], abs=0.01)
    if true <= REACH[case]:
        assert not told
    elif true > max(FAR * REACH[case], REACH[case] + 0.4):
        assert [finding.code for finding in told] == ["push-beyond"]
    assert not [finding for finding in told if finding.rank > 0]
