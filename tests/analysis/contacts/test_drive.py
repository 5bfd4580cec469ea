"""A drive that ends on a parabola is fitted exactly by its own family: its start, its end and its other unknown.

The pushes are the independent closed forms of tests/truth/pieces.py.
"""

import numpy as np
import pytest
from leapwright.analysis.contacts.drive import (
    END_COLUMN,
    LEAD_COLUMN,
    LEVEL_COLUMN,
    Grounds,
    fading_drives,
    power_drives,
    springing_drives,
)
from leapwright.analysis.contacts.least_squares import Fit

from tests.truth.pieces import Piece, human_push, power_push, spring_push

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""
FPS = 24.0
HEIGHT, DISTANCE = 0.45, 0.4
SPEED = float(np.sqrt(2 * G * HEIGHT))
START = 4.3
"""Frame at which the push begins."""


def ground(*pushes: Piece, free: bool = False, lead: float = 0.6, miss: float = 0.0) -> Grounds:
    """Return samples of each push, held before it, up to three in the air; the bottom is at height 0."""
    rows = []
    for push in pushes:
        off = START + push.seconds * FPS
        frames = np.arange(np.ceil(START) - 2, np.ceil(off) + 3)
        t = (frames - START) / FPS
        air = DISTANCE + SPEED * (frames - off) / FPS - 0.5 * G * ((frames - off) / FPS) ** 2
        z = np.where(t < 0, 0.0, np.where(frames < off, push.height(np.clip(t, 0, push.seconds)), air))
        rows.append((frames, z, off))
    longest = max(len(frames) for frames, *_ in rows)

    def padded(values: np.ndarray, last: float) -> np.ndarray:
        return np.concatenate((values, np.full(longest - len(values), last)))

    offs = np.array([off for *_, off in rows])
    count = len(rows)
    shape = np.broadcast_to((DISTANCE, SPEED / FPS, -G / (2 * FPS**2)), (count, 3))
    return Grounds(
        frames=np.array([padded(frames, frames[-1]) for frames, *_ in rows]),
        heights=np.array([padded(z, z[-1]) for _, z, _ in rows]),
        weights=np.array([padded(np.ones(len(frames)), 0.0) for frames, *_ in rows]),
        parabolas=np.column_stack((offs, shape)),
        levels=np.full(count, miss),
        starts=np.stack((np.full(count, START - 2), np.full(count, START + 1.5)), axis=1),
        ends=np.stack((offs - 1.9, offs + 1.2), axis=1),
        leads=np.full(count, lead),
        free=np.full(count, free),
        noise=1e-6,
    )


def ends(found: Fit) -> np.ndarray:
    return found.unknowns[:, END_COLUMN]


@pytest.mark.parametrize("k", [0.6, 0.85, 1.0, 1.3])
def test_a_power_law_push_is_found_exactly(k):
    push = power_push(0.0, DISTANCE, SPEED, k)
    found = power_drives(ground(push))
    assert ends(found)[0] == pytest.approx(START + push.seconds * FPS, abs=2e-3)
    assert found.derived[0] == pytest.approx(START, abs=0.01)
    assert found.rss[0] < 1e-7


def test_a_spring_push_is_found_exactly():
    push = spring_push(0.0, DISTANCE, SPEED, G)
    found = springing_drives(ground(push))
    assert ends(found)[0] == pytest.approx(START + push.seconds * FPS, abs=1e-3)
    assert found.derived[0] == pytest.approx(START, abs=1e-3)
    assert found.rss[0] < 1e-10


@pytest.mark.parametrize("front", [0.1, 0.4])
def test_a_push_whose_force_fades_is_found_exactly_with_its_own_lead(front):
    push, _ = human_push(0.0, DISTANCE, SPEED, gravity=G, lead=0.025, front=front)
    found = fading_drives(ground(push, lead=0.025 * FPS))
    assert ends(found)[0] == pytest.approx(START + push.seconds * FPS, abs=0.05)
    assert found.derived[0] == pytest.approx(START, abs=0.1)
    assert found.unknowns[0, LEAD_COLUMN] == pytest.approx(0.025 * FPS, rel=0.1)


def test_the_family_that_a_push_is_of_fits_it_best():
    power = power_push(0.0, DISTANCE, SPEED, 1.0)
    fading, _ = human_push(0.0, DISTANCE, SPEED, gravity=G, lead=0.025, front=0.3)
    spring = spring_push(0.0, DISTANCE, SPEED, G)
    rows = ground(power, fading, spring, lead=0.025 * FPS)
    rss = np.array([fit(rows).rss for fit in (power_drives, fading_drives, springing_drives)])
    assert rss.argmin(axis=0).tolist() == [0, 1, 2]


def test_a_bottom_read_too_low_is_put_right_where_it_may_move():
    push = spring_push(0.0, DISTANCE, SPEED, G)
    held = springing_drives(ground(push, miss=-0.01))
    free = springing_drives(ground(push, miss=-0.01, free=True))
    assert held.unknowns[0, LEVEL_COLUMN] == -0.01
    assert free.unknowns[0, LEVEL_COLUMN] == pytest.approx(0.0, abs=5e-4)
    assert free.rss[0] < 0.01 * held.rss[0]


def test_only_some_rows_are_those_rows():
    rows = ground(*(power_push(0.0, DISTANCE, SPEED, k) for k in (0.8, 1.0, 1.2)))
    whole, part = power_drives(rows), power_drives(rows.at(np.array([2, 0])))
    np.testing.assert_allclose(ends(part), ends(whole)[[2, 0]], atol=1e-4)


def test_another_gravity_and_rate_change_nothing_in_samples_a_frame():
    # Frames are the unit of time here: the Moon at 24 fps is the Earth at a higher rate.
    push = power_push(0.0, DISTANCE, SPEED, 1.0)
    rows = ground(push)
    assert ends(power_drives(rows))[0] - START == pytest.approx(2 * DISTANCE / SPEED * FPS, abs=2e-3)


def pushed(power: float) -> Piece:
    """Return the push x = d sᵖ that ends at the takeoff speed v: p d / T = v."""
    seconds = power * DISTANCE / SPEED
    heights, speeds = (lambda t: DISTANCE * (t / seconds) ** power), (lambda t: SPEED * (t / seconds) ** (power - 1.0))
    return Piece("power", seconds, heights, speeds)


@pytest.mark.parametrize(("power", "is_push"), [(0.5, False), (1.5, True), (5.0, True), (9.0, False)])
def test_a_corner_and_a_hold_with_a_corner_are_no_push(power, is_push):
    # x = √s leaves its bottom at an infinite speed. s⁹ has moved 0.2 % of the way after half of the time: it is held.
    # A drive is believed up to a residual of 0.3 % of the push distance.
    found = power_drives(ground(pushed(power)))
    assert (np.sqrt(found.rss[0] / found.count[0]) < 3e-3 * DISTANCE) is np.bool_(is_push)
