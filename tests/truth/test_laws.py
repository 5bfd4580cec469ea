"""Laws of a jump, for any height, push, gravity, rate, shape of push and place between the frames.

They are identities of motion under constant gravity (push under constant force: Samozino, Morin, Hintzy & Belli
2008, J Biomech 41:2940). Each is asked of a random jump sampled into a track and audited.

What sampling allows. Takeoff and landing are found within E frames, so along a curve at speed v a height there
is off by v E / fps: with h = v t_r / 2 that is 2 E / n of h for a rise of n frames, and with d = v t_p / (2 k)
it is 2 k E / p of d for a push of p frames. A push ratio is off by the sum of both, 1 + R by 2 E / n alone
since crouch to apex does not move.
"""

import math

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from leapwright.analysis import GRAVITIES, Jump, Settings, Track, World, audit_track

from .worked import PUSHES, Worked

E_SHARP = 0.1
"""Frames: takeoff and landing where the force stops at once, the project's own bar; see also `blur`."""

SHARP = ("constant force", "rising force")
"""Pushes whose force is there to the last: the acceleration flips at takeoff."""

FADING = ("spring release", "half sine force")
"""Pushes whose net force is gone at takeoff: the acceleration goes through 0 there, and the ground's force
with it through one body weight. On frames such a takeoff is known within one (the same on force plates: speed
peaks 22 to 27 ms before the feet leave)."""
E_FADING = 1.0

quick = settings(max_examples=30, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.filter_too_much])


@st.composite
def jumps(draw: st.DrawFn, shapes: tuple[str, ...] = SHARP) -> tuple[Worked, float, float]:
    """Return a jump, a frame rate and a phase: 4 frames of push or more, 5 of rise or more, no arc of whole seconds."""
    fps = draw(st.sampled_from([24.0, 24.0 / 1.001, 25.0, 30.0, 48.0, 60.0]))
    gravity = draw(st.sampled_from(sorted(GRAVITIES.values())))
    rise = draw(st.floats(5.0, 40.0))
    push = draw(st.floats(4.0, 14.0))
    shape = draw(st.sampled_from(shapes))
    height = 0.5 * gravity * (rise / fps) ** 2
    assume(0.10 < height < 6.0)
    distance = push / fps * math.sqrt(2.0 * gravity * height) / (2.0 * PUSHES[shape][1])
    worked = Worked(height=height, push=distance, gravity=gravity, shape=shape, hold=draw(st.floats(0.1, 0.5)))
    return worked, fps, draw(st.floats(0.0, 0.99))


def blur(jump: Jump) -> float:
    """Return frames: E of this jump. Where the audit itself is less sure it may be off by three of its errors, not more
    than the blur of a fading push."""
    return max(E_SHARP, min(E_FADING, 3.0 * jump.takeoff.frame_error))


def audited(worked: Worked, fps: float, phase: float) -> Jump:
    track, _ = worked.track(fps=fps, phase=phase)
    return only_jump(track, worked.gravity)


def only_jump(track: Track, gravity: float) -> Jump:
    audit = audit_track(track, Settings(world=World(gravity=gravity)))
    assert len(audit.jumps) == 1, audit.notes
    return audit.jumps[0]


@quick
@given(jumps())
def test_rise_airtime_and_height_obey_one_gravity(made: tuple[Worked, float, float]) -> None:
    # v = sqrt(2 g h), t_r = v / g, T = 2 t_r, h = g T² / 8.
    worked, fps, phase = made
    jump = audited(worked, fps, phase)
    g, n = worked.gravity, worked.rise_time * fps
    slack = 2.0 * blur(jump) / n
    assert jump.flight.gravity.value == pytest.approx(g)
    assert jump.flight.height.value == pytest.approx(worked.height, rel=slack)
    assert jump.flight.rise.value == pytest.approx(n, abs=blur(jump))
    assert jump.flight.airtime.value == pytest.approx(2.0 * n, abs=blur(jump) + E_SHARP)
    # Height and time of the same audit share the takeoff, so they agree whatever it is.
    flight = jump.flight
    assert 0.5 * flight.gravity.value * (flight.rise.value / fps) ** 2 == pytest.approx(flight.height.value)
    assert flight.rise_expected.value == pytest.approx(fps * math.sqrt(2.0 * flight.height.value / g), rel=1e-6)


@quick
@given(jumps())
def test_a_push_lasts_the_rise_over_the_push_ratio_times_k(made: tuple[Worked, float, float]) -> None:
    # t_p = k 2 d / v = k t_r / R; R = h / d; mean force over the distance R + 1.
    worked, fps, phase = made
    jump = audited(worked, fps, phase)
    k = PUSHES[worked.shape][1]
    n, p = worked.rise_time * fps, worked.push_time * fps
    ratio = worked.height / worked.push
    slack = blur(jump) * (2.0 / n + 2.0 * k / p)
    assert jump.push.ratio.value == pytest.approx(ratio, rel=slack)
    assert jump.push.ratio.value + 1.0 == pytest.approx(ratio + 1.0, rel=slack)
    # Crouch to apex does not depend on takeoff, and the samples miss either by little.
    assert jump.push.distance.value + jump.flight.height.value == pytest.approx(worked.push + worked.height, rel=2e-3)
    assert jump.push.expected.value == pytest.approx(n / ratio, rel=slack + blur(jump) / n)


@quick
@given(jumps(("constant force",)))
def test_a_constant_force_is_neither_early_nor_late(made: tuple[Worked, float, float]) -> None:
    worked, fps, phase = made
    jump = audited(worked, fps, phase)
    p = worked.push_time * fps
    # Both ends of the push: crouch is as sharp as takeoff, since the force sets in at once.
    assert jump.push.frames.value == pytest.approx(p, abs=2.0 * E_SHARP)
    assert jump.push.shape.value == pytest.approx(1.0, abs=4.0 * E_SHARP / p)
    assert jump.push.agreement.value == pytest.approx(1.0, abs=4.0 * E_SHARP / p)
    blamed = {finding.code for finding in jump.findings if finding.rank > 0}
    # A body that absorbs in a sixth of its fall lands stiff, as any ratio past Limits.stiff_ratio does.
    assert blamed <= ({"landing-stiff"} if worked.height > 5.5 * worked.push else set())


@quick
@given(jumps(SHARP + FADING))
def test_the_figures_of_one_audit_agree_with_one_another(made: tuple[Worked, float, float]) -> None:
    # Definitions, exact whatever was found: R, the paces, their quotient, and k = t_p v / (2 d).
    worked, fps, phase = made
    jump = audited(worked, fps, phase)
    g = worked.gravity
    assert jump.push.ratio.value == pytest.approx(jump.flight.height.value / jump.push.distance.value, rel=1e-9)
    assert jump.flight.airtime.value == pytest.approx(jump.flight.rise.value + jump.flight.fall.value, rel=1e-9)
    assert jump.flight.pace.value == pytest.approx(math.sqrt(jump.flight.gravity.value / g), rel=1e-9)
    real = math.sqrt(2.0 * g * jump.flight.height.value)
    push = jump.push
    assert push.pace.value == pytest.approx(2.0 * push.distance.value / real / (push.frames.value / fps), rel=1e-9)
    assert jump.push.agreement.value == pytest.approx(jump.push.pace.value / jump.flight.pace.value, rel=1e-9)
    # k = t_p v / (2 d) with v the flight's own speed makes k and agreement reciprocal.
    assert jump.push.shape.value * jump.push.agreement.value == pytest.approx(1.0)


@quick
@given(jumps(FADING))
def test_a_fading_push_is_found_within_its_blur(made: tuple[Worked, float, float]) -> None:
    worked, fps, phase = made
    jump = audited(worked, fps, phase)
    assert jump.takeoff.frame == pytest.approx(
        worked.track(fps=fps, phase=phase)[1]["takeoff"], abs=E_FADING * max(1.0, fps / 24.0)
    )
    # A force that is nearly gone is hardly off the arc.
    assert jump.flight.gravity.value == pytest.approx(worked.gravity, rel=1e-3)


@quick
@given(jumps(("constant force",)), st.floats(1.3, 2.0), st.floats(0.5, 0.9))
def test_a_style_that_is_kept_is_not_blamed_on_the_push(
    made: tuple[Worked, float, float], faster: float, slower: float
) -> None:
    # Motion played as if under another gravity, push and all: only the air pace may be told.
    worked, fps, phase = made
    # Half as high as the push is long and twice as slow, a jump is drawn as a squat is: it is named, not called one.
    assume(worked.height > 0.6 * worked.push)
    track, _ = worked.track(fps=fps, phase=phase)
    for pace in (faster, slower):
        jump = only_jump(track, worked.gravity / pace**2)
        assert jump.flight.pace.value == pytest.approx(pace)
        assert jump.push.agreement.value == pytest.approx(1.0, abs=4.0 * E_SHARP / (worked.push_time * fps))
        blamed = {finding.code for finding in jump.findings if finding.rank > 0}
        assert blamed <= {"air-floaty", "air-snappy"} | (
            {"landing-stiff"} if worked.height > 5.5 * worked.push else set()
        )


@quick
@given(jumps(), st.floats(0.2, 4.0))
def test_scaling_a_jump_scales_its_frames_by_the_root_and_keeps_its_ratio(
    made: tuple[Worked, float, float], scale: float
) -> None:
    # Same frames, lengths and gravity scaled: every ratio and every frame stays (equal Froude number).
    worked, fps, phase = made
    track, _ = worked.track(fps=fps, phase=phase)
    plain = only_jump(track, worked.gravity)
    assume(scale * plain.flight.height.value > 0.08)
    large = only_jump(Track("large", fps, track.frames, track.positions * scale), worked.gravity * scale)
    assert large.takeoff.frame == pytest.approx(plain.takeoff.frame, abs=0.02)
    assert large.push.ratio.value == pytest.approx(plain.push.ratio.value, rel=0.01)
    assert large.flight.gravity.value == pytest.approx(plain.flight.gravity.value * scale, rel=1e-3)


@quick
@given(jumps(), st.floats(-400.0, 400.0), st.floats(0.0, 2.0 * math.pi), st.integers(-5000, 5000))
def test_where_and_when_a_jump_happens_does_not_matter(
    made: tuple[Worked, float, float], away: float, turn: float, later: int
) -> None:
    worked, fps, phase = made
    track, _ = worked.track(fps=fps, phase=phase)
    plain = only_jump(track, worked.gravity)
    c, s = math.cos(turn), math.sin(turn)
    turned = track.positions @ np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]]) + away
    moved = only_jump(Track("moved", fps, track.frames + later, turned), worked.gravity)
    # But for rounding, at 400 m and 5000 frames.
    assert moved.takeoff.frame - later == pytest.approx(plain.takeoff.frame, abs=1e-4)
    assert moved.landing.frame - later == pytest.approx(plain.landing.frame, abs=1e-4)
    assert moved.push.ratio.value == pytest.approx(plain.push.ratio.value, rel=1e-3)


@quick
@given(jumps(("constant force",)))
def test_a_landing_is_a_push_run_backward(made: tuple[Worked, float, float]) -> None:
    worked, fps, phase = made
    track, events = worked.track(fps=fps, phase=phase)
    last = track.frames[0] + track.frames[-1]
    jump = only_jump(Track("backward", fps, track.frames, track.positions[::-1]), worked.gravity)
    assert jump.landing.frame == pytest.approx(last - events["takeoff"], abs=E_SHARP)
    assert jump.takeoff.frame == pytest.approx(last - events["landing"], abs=E_SHARP)
    n, p = worked.rise_time * fps, worked.push_time * fps
    slack = 2.0 * E_SHARP * (1.0 / n + 1.0 / p)
    assert jump.absorb.ratio.value == pytest.approx(worked.height / worked.push, rel=slack)


def test_a_sharp_takeoff_is_nearly_always_exact() -> None:
    # The project's own bar for clean tracks: 95 % of the events within 0.1 frame.
    rng = np.random.default_rng(20)
    off = []
    while len(off) < 60:
        fps, rise = float(rng.choice([24.0, 25.0, 30.0, 60.0])), rng.uniform(5.0, 30.0)
        height = 0.5 * 9.80665 * (rise / fps) ** 2
        worked = Worked(height=height, push=height / rng.uniform(0.5, 1.2), gravity=9.80665)
        if 0.1 < height < 3.0 and worked.push_time * fps > 4.0:
            track, events = worked.track(fps=fps, phase=rng.uniform())
            jump = only_jump(track, 9.80665)
            off.append(max(abs(getattr(jump, name).frame - events[name]) for name in ("takeoff", "landing")))
    assert np.percentile(off, 95) <= 0.1


@pytest.mark.parametrize("shape", PUSHES)
def test_k_is_half_the_end_slope_and_the_centroid_of_the_force(shape: str) -> None:
    # k = x'(1) / 2 = 1 / (2 (1 - tau)), tau the centroid in time of the net force: of the curves made here.
    curve, k = PUSHES[shape]
    s = np.linspace(0.0, 1.0, 20001)
    x = curve(s)
    force = np.gradient(np.gradient(x, s), s)[2:-2]
    tau = float(np.average(s[2:-2], weights=force))
    assert k == pytest.approx((x[-1] - x[-2]) / (s[-1] - s[-2]) / 2.0, rel=1e-3)
    assert k == pytest.approx(1.0 / (2.0 * (1.0 - tau)), rel=1e-3)
    # Mean of the force over the distance is the work over it, v² / 2 d, for any shape.
    assert float(np.average(force, weights=np.gradient(x, s)[2:-2])) == pytest.approx(2.0 * k**2, rel=1e-3)
