"""What stands before a push or after a landing is no part of it: a hold that drifts, a squat that follows.

The tracks are textbook kinematics, joined by hand; the push is a constant force's, 2 d / v.
"""

import math

import numpy as np
import pytest
from leapwright.analysis import Jump, Track, audit_track

G, FPS, HEIGHT, PUSH = 9.80665, 24.0, 0.45, 0.35
SPEED = math.sqrt(2.0 * G * HEIGHT)
CROUCH = 20.0
LASTS = 2.0 * PUSH / SPEED * FPS
TAKEOFF = CROUCH + LASTS
LANDING = TAKEOFF + 2.0 * SPEED / G * FPS
FRAMES = np.arange(0.0, 100.0)


def only(before: np.ndarray, low: float, sunk: np.ndarray) -> Jump:
    """Return the one jump of a body that is at `before` until the crouch, at low m, and sinks by `sunk` after the
    landing.
    """
    rise = np.clip((FRAMES - CROUCH) / LASTS, 0.0, 1.0)
    t = (FRAMES - TAKEOFF) / FPS
    z = np.where(FRAMES < CROUCH, before, low + (0.97 - low) * rise**2)
    z = np.where(FRAMES > TAKEOFF, 0.97 + SPEED * t - 0.5 * G * t * t, z)
    z = np.where(FRAMES > LANDING, 0.97 - sunk, z)
    (jump,) = audit_track(Track("held", FPS, FRAMES, np.stack((0.0 * z, 0.0 * z, z), axis=1))).jumps
    return jump


def absorbed(depth: float) -> np.ndarray:
    """Return meters sunk under a constant force that takes the landing's speed."""
    part = np.clip((FRAMES - LANDING) / (2.0 * depth / SPEED * FPS), 0.0, 1.0)
    return depth * (1.0 - (1.0 - part) ** 2)


@pytest.mark.parametrize("drift", [0.0, 0.01, 0.02])
def test_a_push_begins_where_the_body_speeds_up_not_where_a_hold_begins(drift: float) -> None:
    low = 0.62 + drift
    before = np.where(FRAMES < 9.0, 0.62 + 0.35 * np.clip((9.0 - FRAMES) / 6.0, 0.0, 1.0) ** 2,
                      0.62 + drift * (FRAMES - 9.0) / (CROUCH - 9.0))
    jump = only(before, low, absorbed(PUSH))
    assert jump.push is not None
    assert jump.push.frames.value == pytest.approx(LASTS, abs=1.0)
    assert not {finding.code for finding in jump.findings} & {"push-long", "push-short"}


def test_a_quick_absorb_and_then_a_deep_slow_squat_is_no_mushy_landing() -> None:
    quick = 0.2
    after = np.clip((FRAMES - LANDING - 2.0 * quick / SPEED * FPS - 1.0) / 25.0, 0.0, 1.0)
    jump = only(np.full_like(FRAMES, 0.62), 0.62, absorbed(quick) + 0.25 * after**2 * (3.0 - 2.0 * after))
    assert "landing-mushy" not in {finding.code for finding in jump.findings}
