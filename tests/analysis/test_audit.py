"""The audit as a whole: its order, and that a sound jump raises no alarm."""

import itertools
import math

import numpy as np
import pytest
from leapwright.analysis import Followed, Settings, Track, audit_track
from leapwright.analysis.audit import judge

from tests.analysis.closed_form import G, Leap, build, eased, keyed, measured

SEEDS = 1000


def _sound(rng: np.random.Generator) -> Leap:
    """Return a jump inside every tolerance: pace, push, landing, travel and noise as believable ones have them."""
    height = rng.uniform(0.15, 1.5)
    ratio = rng.uniform(0.5, 1.5)
    fps = float(rng.choice([24, 25, 30, 48, 60]))
    drift = rng.uniform(-0.2, 0.2)
    turn = rng.uniform(-0.05, 0.05)
    distance = rng.uniform(0.3, 3.0)
    angle = rng.uniform(0, 2 * math.pi)

    def path(s: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        along, aside = distance * (s + drift / 2 * s * (1 - s)), distance * turn * s * (1 - s)
        return (
            along * math.cos(angle) - aside * math.sin(angle),
            along * math.sin(angle) + aside * math.cos(angle),
        )

    return Leap(
        height=height,
        push=height / ratio,
        lower=rng.uniform(-0.3, 1.0) * height,
        absorb=height / rng.uniform(1.0, 1.9),
        gravity=G * rng.uniform(0.92, 1.08) ** 2,
        fps=fps,
        crouch_at=rng.uniform(10, 20),
        absorb_stretch=rng.uniform(0.8, 1.21),
        path=path,
        noise=float(rng.choice([0.0, 0.001, 0.003])),
        error=0.1,
        seed=int(rng.integers(1 << 30)),
        follows=Followed.BODY,  # hips may change speed by the fifth that drift goes up to
        **eased(rng.uniform(0.8, 1.2)),
    )


def test_a_thousand_sound_jumps_raise_no_alarm() -> None:
    rng = np.random.default_rng(20)
    alarms = []
    for _ in range(SEEDS):
        leap = _sound(rng)
        found = judge(measured(leap), Settings()).findings
        alarms += [(finding.code, finding.message, leap) for finding in found if finding.rank > 0]
    assert not alarms


def test_a_thousand_real_jumps_keyed_in_whole_frames_raise_no_alarm() -> None:
    # The poses are right; only their frames are rounded, which is all that blocking does to a sound jump.
    rng = np.random.default_rng(21)
    alarms = []
    for _ in range(SEEDS):
        step = int(rng.integers(1, 3))
        height, ratio, softness = rng.uniform(0.15, 2.0), rng.uniform(0.5, 1.5), rng.uniform(1.0, 1.9)
        leap = Leap(height=height, push=height / ratio, absorb=height / softness, crouch_at=rng.uniform(10, 12))
        frames = [step * round(frame / step) for frame in leap.events()]
        assert min(b - a for a, b in itertools.pairwise(frames)) >= step
        heights = (1 - leap.push, 1.0, 1 + height, 1.0, 1 - leap.absorb)
        jump = judge(keyed(*zip(frames, heights, strict=True), step=step), Settings())
        alarms += [(finding.code, finding.message, leap) for finding in jump.findings if finding.rank > 0]
    assert not alarms


def test_the_gravest_comes_first() -> None:
    jump = judge(measured(Leap(push_stretch=2.0, absorb_stretch=3.0, gravity=0.5 * G)), Settings())
    ranks = [finding.rank for finding in jump.findings]
    assert ranks == sorted(ranks, reverse=True)
    assert len(set(ranks)) > 1


def test_a_track_is_audited_end_to_end() -> None:
    track, phases = build(Leap(height=0.6, push_stretch=1.0, crouch_at=30.3, after=20))
    audit = audit_track(track)
    (jump,) = audit.jumps
    # Parabolas without noise: what they meet at is known to a thousandth of a frame.
    assert jump.takeoff.frame == pytest.approx(phases.takeoff.frame, abs=1e-3)
    assert jump.landing.frame == pytest.approx(phases.landing.frame, abs=1e-3)
    assert jump.flight.gravity.value == pytest.approx(G)
    assert audit.worst <= 0
    assert (audit.frame_start, audit.frame_end) == (track.frames[0], track.frames[-1])


def test_a_track_without_a_jump_says_so() -> None:
    audit = audit_track(Track("still", 24, range(48), [[0, 0, 1]] * 48))
    assert audit.jumps == ()
    assert audit.notes
    assert audit.worst == -1
