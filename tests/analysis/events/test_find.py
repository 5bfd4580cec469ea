"""find_phases as a whole: the laws that it must obey on any jump, and what it tells of borderline tracks."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Marks, Track, World
from leapwright.analysis.events import find_phases
from leapwright.analysis.limits import Limits
from leapwright.analysis.notes import Said
from leapwright.analysis.track import EVENTS

from tests.truth.motions import make
from tests.truth.worked import Worked

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""
JUMP = Worked(height=0.45, push=0.4, drop=0.6, absorb=0.3, gravity=G)


def found(track, *, world=World(gravity=G), limits=Limits()):  # noqa: B008 (both frozen)
    return find_phases(track, world, limits)


def frames_of(phases):
    return {name: getattr(phases, name).frame for name in EVENTS if getattr(phases, name) is not None}


def level(heights, *, frames=None, fps=24.0, **known):
    z = np.asarray(heights, dtype=float)
    return Track("Moss", fps, np.arange(len(z)) if frames is None else frames, np.stack((0 * z, 0 * z, z), 1), **known)


@pytest.fixture(scope="module")
def jump():
    return JUMP.track(fps=24.0, phase=0.3)


def assert_events(phases, truth, *, by=0.05):
    got = frames_of(phases)
    assert got.keys() == truth.keys()
    for name, frame in truth.items():
        assert got[name] == pytest.approx(frame, abs=by), name


@pytest.mark.parametrize("fps", [12.0, 24.0, 24000 / 1001, 30.0, 60.0, 120.0, 240.0])
def test_whatever_the_rate_the_events_lie_where_they_are(fps):
    track, truth = JUMP.track(fps=fps, phase=0.4)
    (phases,) = found(track).phases
    # At 12 a second three samples lie within the absorb: any power law goes through them, and no such law is taken.
    assert_events(phases, truth, by=max(0.05 if fps > 12.0 else 0.3, 0.002 * fps))


def test_frames_counted_from_elsewhere_move_the_events_along(jump):
    track, truth = jump
    for shift in (-1000.0, 1001.0, 0.25, -(truth["apex"])):
        (phases,) = found(replace(track, frames=track.frames + shift)).phases
        assert_events(phases, {name: frame + shift for name, frame in truth.items()})


def test_ground_somewhere_else_changes_no_frame(jump):
    track, truth = jump
    for height in (-3.0, 250.0):
        (phases,) = found(replace(track, positions=track.positions + np.array([7.0, -2.0, height]))).phases
        assert_events(phases, truth)


@pytest.mark.parametrize("scale", [0.3, 5.0, 30.0])
def test_a_world_of_another_scale_has_the_same_frames(jump, scale):
    # Lengths and gravity by one factor leave every time as it is: t = √(2 h / g).
    track, truth = jump
    larger = replace(track, positions=track.positions * scale)
    (phases,) = found(larger, world=World(gravity=G * scale), limits=Limits(smallest_hop=0.05 * scale)).phases
    assert_events(phases, truth)


def test_the_same_motion_called_another_rate_has_the_same_frames(jump):
    # Twice the rate is half the time: four times the gravity.
    track, truth = jump
    (phases,) = found(replace(track, fps=48.0), world=World(gravity=4 * G)).phases
    assert_events(phases, truth, by=0.1)


def test_backward_in_time_takeoff_is_landing_and_crouch_absorbed(jump):
    track, truth = jump
    back = replace(track, frames=-track.frames[::-1], positions=track.positions[::-1])
    (phases,) = found(back).phases
    assert_events(phases, dict(zip(EVENTS, [-truth[name] for name in reversed(EVENTS)], strict=True)), by=0.1)


def test_a_missing_frame_here_and_there_is_no_matter(jump):
    track, truth = jump
    middle = int(np.searchsorted(track.frames, truth["apex"]))
    kept = np.delete(np.arange(len(track.frames)), [5, middle, middle + 3, len(track.frames) - 6])
    (phases,) = found(Track("Moss", 24, track.frames[kept], track.positions[kept])).phases
    assert_events(phases, truth)


def test_frames_at_uneven_times_are_no_matter():
    track, truth = JUMP.track(fps=60.0, phase=0.3)
    frames = np.sort(track.frames + np.random.default_rng(3).uniform(-0.3, 0.3, len(track.frames)))
    t = (frames - truth["takeoff"]) / 60
    (phases,) = found(level(JUMP.heights(t), frames=frames, fps=60.0)).phases
    assert_events(phases, truth, by=0.15)


@pytest.mark.parametrize("where", range(-2, 3))
def test_a_stray_sample_next_to_a_contact_does_not_turn_the_arc_over(where):
    track, truth = JUMP.track(fps=24.0, phase=0.3)
    positions = track.positions.copy()
    positions[int(np.searchsorted(track.frames, truth["landing"])) + where, 2] += 0.4
    for phases in found(replace(track, positions=positions)).phases:
        assert phases.takeoff.frame < phases.apex.frame < phases.landing.frame
        assert phases.arc.gravity > 0


def test_no_jump_is_said_in_a_note():
    assert [note.text for note in found(level(np.ones(40))).notes] == ["no jump found"]
    assert found(level(np.ones(40))).phases == ()


def test_a_hop_too_low_is_said_with_the_limit_it_is_under():
    track, truth = Worked(height=0.06, push=0.05, gravity=G).track(fps=60.0, phase=0.3)
    result = found(track, limits=Limits(smallest_hop=0.065))
    frame = round(truth["apex"])
    assert result.notes[-1].text == f"left out around frame {frame}: a hop lower than the smallest one of 6.5 cm"


def test_a_flight_that_the_track_cuts_off_is_said():
    track, truth = JUMP.track(fps=60.0, phase=0.3)
    kept = track.frames <= (truth["apex"] + 3 * truth["landing"]) / 4
    result = found(Track("Moss", 60, track.frames[kept], track.positions[kept]))
    assert result.phases == ()
    frame = round(truth["apex"])
    assert result.notes[-1].text == f"left out around frame {frame}: a flight cut off by an end of the track"


@pytest.mark.parametrize("heights", ["00000", "01210", "00100", "10001", "01234", "04640"])
def test_five_frames_are_too_few_for_a_jump(heights):
    assert found(level([int(height) / 10 for height in heights])).phases == ()


@pytest.mark.parametrize("interpolation", [None, "constant", "linear", "bezier"])
@pytest.mark.parametrize("keys", [None, [0, 39], [5.5], [], [-30, 90]])
def test_standing_still_is_no_jump_however_keyed(interpolation, keys):
    assert found(level(np.ones(40), interpolation=interpolation, key_frames=keys)).phases == ()


@pytest.mark.parametrize("height", [1e-12, 1e-3, 1e3])
def test_a_bounce_of_no_height_or_a_kilometers_is_no_jump_in_this_world(height):
    t = np.linspace(-1, 1, 41)
    z = height * np.maximum(0.0, 1 - 2 * t**2)
    assert found(level(z)).phases == ()


@pytest.mark.parametrize("fps", [1e-3, 1.0, 1e5])
def test_rates_that_nobody_works_at_are_taken_as_they_are(jump, fps):
    # At those paces the flight's gravity is not this world's.
    assert found(replace(jump[0], fps=fps)).phases == ()


@pytest.mark.parametrize("kind", ["on twos", "on threes", "stepped poses", "twos joined by lines, keys known"])
def test_of_held_poses_it_is_said_how_they_are_held(kind):
    motion = make(kind, 3)
    result = find_phases(motion.track, World(), Limits())
    (truth,) = motion.truth
    (phases,) = result.phases
    step = {"on twos": 2, "on threes": 3}.get(kind)
    assert phases.held == (not kind.startswith("twos"))
    assert step is None or phases.step == step
    # A pose is held for a step: no event is known better.
    assert abs(phases.takeoff.frame - truth.takeoff) <= 1.5 * phases.step
    assert abs(phases.landing.frame - truth.landing) <= 1.5 * phases.step


def test_keyed_poses_win_over_the_curve_drawn_through_them():
    keys = np.array([1, 8, 13, 20, 27, 34, 45])
    heights = np.interp(np.arange(1, 46), keys, [1, 0.6, 1, 1.41, 1, 0.7, 1])
    track = level(heights, frames=np.arange(1, 46), key_frames=keys, interpolation="bezier")
    (phases,) = found(track).phases
    assert phases.method == "keys"
    assert list(frames_of(phases).values()) == [8, 13, 20, 27, 34]


def test_a_key_that_the_drawn_arc_agrees_with_is_known_to_a_fiftieth():
    track, _ = Worked(height=0.5 * G * 0.25**2, push=0.4, gravity=G).track(fps=24.0)
    drawn = found(track).phases[0]
    keys = np.unique([track.frames[0], *np.round(list(frames_of(drawn).values())), track.frames[-1]])
    (phases,) = found(replace(track, key_frames=keys, interpolation="bezier")).phases
    assert phases.arc is not None and phases.takeoff.frame == round(drawn.takeoff.frame)
    assert phases.takeoff.frame_error == 0.02


def test_jumps_come_in_order_of_time():
    for seed in range(6):
        motion = make("several, rebound", seed)
        takeoffs = [phases.takeoff.frame for phases in find_phases(motion.track, World(), Limits()).phases]
        assert takeoffs == sorted(takeoffs) and len(takeoffs) == len(motion.truth)


def test_marks_have_the_last_word(jump):
    track, truth = jump
    marked = replace(track, marks=(Marks(takeoff=truth["takeoff"] + 1),))
    (phases,) = found(marked).phases
    assert phases.takeoff.pinned and phases.takeoff.frame == truth["takeoff"] + 1


def test_a_dropped_frame_costs_no_jump_and_is_said():
    track, truth = JUMP.track(fps=60.0, phase=0.3)
    whole = found(track).phases[0]
    lost = round(truth["apex"] + 4)
    positions = track.positions.copy()
    at = int(np.searchsorted(track.frames, lost))
    positions[at] = positions[at - 1]
    result = found(Track("Moss", 60, track.frames, positions))
    assert result.phases[0].takeoff.frame == pytest.approx(whole.takeoff.frame, abs=0.1)
    assert result.notes[0].text == f"frame {lost} only repeats the one before: taken as dropped, and drawn through"


def test_an_eased_rise_and_fall_is_said_to_be_left_out():
    # A cosine of 0.35 m in 2 s presses down by 0.35 π² = 3.5 m/s² at its top: the feet stay on the ground.
    z = 1 + 0.35 * (1 - np.cos(2 * np.pi * np.clip((np.arange(84.0) - 10) / 48, 0, 1)))
    result = found(Track("Moss", 24, range(84), np.stack((0 * z, 0 * z, z), 1)))
    assert result.phases == ()
    nearest = result.notes[-1]
    assert nearest.said is Said.NEAREST and nearest.values["first"] <= 34 <= nearest.values["last"]
    assert nearest.values["rise"] == pytest.approx(0.7, abs=0.01)


def test_a_slow_rise_that_hardly_falls_again_is_no_jump():
    # It rises from a crouch into a walk: half a parabola up at 0.35 g, then 2 cm down.
    t = np.arange(0, 60.0) / 24
    v, g = 1.3, 0.35 * 9.80665
    rise = np.clip(t - 1.0, 0, None)
    push = 0.2 * v * np.clip((t - 0.6) / 0.4, 0, 1) ** 2
    z = push + v * rise - g * rise**2 / 2
    stop = int(np.searchsorted(t, 1.0 + v / g + 0.1))
    z[stop:] = z[stop]
    assert found(Track("Brindle", 24, range(60), np.stack((0 * z, 0 * z, z), 1))).phases == ()
