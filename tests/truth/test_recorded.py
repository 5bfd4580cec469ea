"""Recorded people: the root tracks that PyPI's pybullet 3.2.7 carries (pybullet_data/data/motions).

Motion capture retargeted to a humanoid, 24 to 60 Hz, a file a motion. The root is a pelvis, not the center of
mass: arms and legs that move in flight bend its arc, so gravity is asked within 10 % only, and only of the jump
that does not turn over.
"""

import numpy as np
import pytest
from leapwright.analysis import Audit, Certainty, Jump, Track, audit_track

from .recordings import available, recorded

EARTH = 9.81
RATES = (24.0, 25.0, 30.0)

GROUNDED = (
    "humanoid3d_walk",
    "humanoid3d_crawl",
    "humanoid3d_getup_facedown",
    "humanoid3d_getup_faceup",
    "humanoid3d_kick",
    "humanoid3d_punch",
    "humanoid3d_roll",
    "laikago_walk",
    "walker/0walk_forward",
    "walker/turn_left0",
    "walker/turn_left1",
    "walker/turn_right0",
    "walker/turn_right1",
)
"""Motions in which nobody leaves the ground."""


def looped(name: str, *, fps: float, times: int = 4) -> Track:
    """Return a cycle played over and over, each round carried on from where the last one ended."""
    one = recorded(name, fps=fps)
    step = one.positions[-1] - one.positions[0]
    step[2] = 0.0
    rounds = [one.positions[:-1] + i * step for i in range(times)]
    positions = np.concatenate(rounds)
    return Track(f"{name} looped", fps, np.arange(len(positions)), positions)


def the_jump(audit: Audit) -> Jump:
    assert len(audit.jumps) == 1, f"{len(audit.jumps)} jumps; {audit.notes}"
    return audit.jumps[0]


def test_the_recordings_are_the_ones_the_checks_are_about() -> None:
    assert set(GROUNDED) | {"humanoid3d_jump", "humanoid3d_run", "humanoid3d_backflip"} <= set(available())
    jump = recorded("humanoid3d_jump")
    # Read off the file of pybullet 3.2.7: 107 poses of 1/60 s, the lowest and the highest of them.
    assert (len(jump.frames), round(jump.fps)) == (107, 60)
    assert (jump.heights.min(), jump.heights.max()) == pytest.approx((0.595, 1.129), abs=1e-3)


@pytest.mark.parametrize("fps", [None, *RATES])
def test_the_recorded_jump_flies_in_earths_gravity(fps: float | None) -> None:
    jump = the_jump(audit_track(recorded("humanoid3d_jump", fps=fps)))
    assert jump.flight.gravity.value == pytest.approx(EARTH, rel=0.10)
    # The pelvis leaves the ground at about 0.87 m and tops out at 1.129 m: a hop of an ordinary person. Either end is
    # off by a few centimeters, as the pelvis is no center of mass.
    assert jump.flight.height.value == pytest.approx(1.129 - 0.87, abs=0.07)
    assert 0.5 < jump.push.ratio.value < 1.6
    seconds = jump.flight.airtime.value / jump.fps
    assert jump.travel.speed.value * seconds == pytest.approx(jump.travel.distance.value, rel=0.2)


@pytest.mark.parametrize("name", ["takeoff", "apex", "landing"])
def test_the_recorded_jump_keeps_its_events_at_other_rates(name: str) -> None:
    seconds = []
    for fps in RATES:
        for start in (0.0, 0.4 / fps, 0.7 / fps):
            jump = the_jump(audit_track(recorded("humanoid3d_jump", fps=fps, start=start)))
            seconds.append(start + getattr(jump, name).frame / fps)
    own = the_jump(audit_track(recorded("humanoid3d_jump")))
    there = getattr(own, name).frame / own.fps
    # One frame of the coarsest rate.
    assert max(abs(second - there) for second in seconds) <= 1.0 / min(RATES)


@pytest.mark.parametrize("name", GROUNDED)
def test_who_keeps_to_the_ground_does_not_jump(name: str) -> None:
    for fps in (None, *RATES):
        jumps = audit_track(recorded(name, fps=fps)).jumps
        assert all(jump.certainty is Certainty.DOUBTFUL for jump in jumps), f"{name} at {fps}"


@pytest.mark.parametrize("name", ["humanoid3d_walk", "humanoid3d_crawl", "laikago_walk"])
def test_a_gait_cycle_played_over_and_over_does_not_jump(name: str) -> None:
    for fps in RATES:
        assert audit_track(looped(name, fps=fps)).jumps == (), f"{name} at {fps:g}"


@pytest.mark.parametrize("name", ["humanoid3d_run", "humanoid3d_dance_a", "humanoid3d_dance_b"])
def test_a_run_or_a_dance_holds_small_hops_at_most(name: str) -> None:
    # They leave the ground by a few centimeters: about 0.2 s near 1 g in dance_b, g 0.2² / 8 = 5 cm; what is reported
    # must be that, with half as long again for a pelvis that bends its arc.
    for fps in RATES:
        for jump in audit_track(looped(name, fps=fps)).jumps:
            assert jump.flight.height.value < EARTH * 0.3**2 / 8


def test_a_backflip_is_not_blamed_for_a_gravity_its_root_cannot_show() -> None:
    # A pelvis circles the center of mass in a flip; a root's gravity there is no evidence of a wrong pace.
    for fps in RATES:
        jump = the_jump(audit_track(recorded("humanoid3d_backflip", fps=fps)))
        assert not {finding.code for finding in jump.findings if finding.rank > 0} & {"air-floaty", "air-snappy"}
