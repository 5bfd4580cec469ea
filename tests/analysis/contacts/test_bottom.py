"""The bottom before a contact: where a hold ends, where the height turns, or that the track begins too late to show it.
"""

import numpy as np
import pytest
from leapwright.analysis.contacts.bottom import _foot, _samples_over, bottom
from leapwright.analysis.contacts.knot import Knot

FPS = 24.0
DISTANCE, PUSH = 0.4, 6.0
"""Meters; frames."""
SPEED = 2 * DISTANCE / PUSH
"""Meters a frame at the end of a constant force: 2 d / t (exact)."""


def rise(start, *, dip=None, n=None):
    """Return a constant push from frame `start`, from a hold, or from a parabolic dip of that bend; and its contact."""
    frames = np.arange(0.0, start + PUSH + 1) if n is None else np.arange(0.0, n)
    tau = frames - start
    before = np.zeros_like(tau) if dip is None else dip * tau**2
    z = np.where(tau < 0, before, DISTANCE * (tau / PUSH) ** 2)
    return frames, z, Knot(start + PUSH, 0.01, DISTANCE, SPEED, SPEED)


def found(frames, z, contact, *, noise=1e-6, fps=FPS):
    return bottom(frames, z, contact, noise=noise, fps=fps)


@pytest.mark.parametrize("start", [9.0, 9.3, 9.5, 9.8])
def test_a_hold_ends_where_the_push_begins_between_frames(start):
    result = found(*rise(start))
    assert result.held and not result.cut
    assert result.frame == pytest.approx(start, abs=0.02)
    # The push's first sample counts as held while it rises by less than 3 mm a meter (LEVEL); the mean moves by even
    # less.
    assert result.height == pytest.approx(0.0, abs=1e-4)


@pytest.mark.parametrize("start", [9.0, 9.3, 9.7])
def test_a_bottom_turned_through_is_the_vertex(start):
    # The same bend on both sides, so that one parabola passes through all samples near the bottom.
    result = found(*rise(start, dip=DISTANCE / PUSH**2))
    assert not result.held and not result.cut
    assert result.frame == pytest.approx(start, abs=1e-6)
    assert result.height == pytest.approx(0.0, abs=1e-9)


def test_a_hold_that_drifts_by_a_millimeter_is_a_hold():
    frames, z, contact = rise(14.0)
    z = z + np.where(frames < 14, 0.0005 * (14 - frames) / 14, 0.0)
    result = found(frames, z, contact)
    assert result.held and result.frame == pytest.approx(14.0, abs=0.1)


def test_a_track_that_begins_in_the_push_is_cut():
    frames, z, contact = rise(-2.4, dip=DISTANCE / PUSH**2, n=4)
    result = found(frames, z, contact)
    assert result is not None and result.cut


def test_a_track_that_begins_in_the_crouch_is_not_cut():
    # Frame 0 is the crouch itself: the curve is level there, as its bend shows.
    result = found(*rise(0.0))
    assert not result.cut
    assert result.frame == pytest.approx(0.0, abs=0.3)


def test_what_was_never_lower_did_not_push():
    frames = np.arange(12.0)
    contact = Knot(9.0, 0.1, 0.0, 0.05, 0.0)
    assert found(frames, np.zeros(12), contact) is None
    assert found(frames, 0.02 * np.maximum(9 - frames, 0.0), contact) is None


def test_one_sample_before_the_contact_tells_nothing():
    assert found(np.array([3.0, 4.0]), np.array([0.0, 0.1]), Knot(3.5, 0.1, 0.05, 0.1, 0.1)) is None


def test_under_noise_the_error_holds_the_miss_on_average():
    z = []
    for seed in range(60):
        frames, heights, contact = rise(9.4, dip=DISTANCE / PUSH**2)
        heights = heights + np.random.default_rng(seed).normal(0, 0.002, len(heights))
        result = found(frames, heights, contact, noise=0.002)
        z.append((result.frame - 9.4) / result.error)
    # The stated error includes what two unlike halves would leave unsure, so on this even dip it is never too small.
    assert np.sqrt(np.mean(np.square(z))) < 1.5


def test_a_landings_bottom_is_the_same_backward():
    result = found(*rise(9.3))
    assert result.backward.frame == -result.frame
    assert result.backward.backward == result
    assert result.event.frame == result.frame and result.event.height == result.height


def test_at_120_fps_a_hold_is_still_one():
    start, each = 50.3, 5.0
    frames = np.arange(0.0, start + PUSH * each + 1)
    z = np.where(frames < start, 0.0, DISTANCE * ((frames - start) / (PUSH * each)) ** 2)
    result = found(frames, z, Knot(start + PUSH * each, 0.01, DISTANCE, SPEED / each, SPEED / each), fps=FPS * each)
    assert result.held and result.frame == pytest.approx(start, abs=0.1)


def foot(steps, *, speed=1.0):
    """Return the index of the last sample before the push, of a rise by these steps, meters a frame; no noise."""
    z = np.concatenate(([0.0], np.cumsum(steps)))
    return _foot(np.arange(float(len(z))), z, Knot(len(z) - 1.0, 0.01, float(z[-1]), speed, speed), 0.0, 1.0)


@pytest.mark.parametrize(("creep", "first"), [(0.03, 5), (0.055, 0)])
def test_a_point_that_creeps_at_four_hundredths_of_the_takeoff_speed_is_at_rest(creep, first):
    # Six steps of creeping, four at full speed; the last slow one is still part of the push, since it is far shorter
    # than the one after it.
    assert foot([creep] * 6 + [1.0] * 4) == first


@pytest.mark.parametrize(("ratio", "first"), [(0.7, 0), (0.9, 2)])
def test_steps_that_shrink_by_a_fifth_each_are_still_the_push(ratio, first):
    # By their speed all of the first three are at rest. Where they grow by a fifth or more, the push begins with them;
    # where they are more alike, a hold drifts.
    assert foot([0.02 * ratio**2, 0.02 * ratio, 0.02, 1.0, 1.0]) == first


@pytest.mark.parametrize(("off", "held"), [(0.0045, True), (0.0065, False)])
def test_samples_of_a_hold_scatter_by_four_times_the_noise(off, held):
    """A hold of ten samples under 1 mm of noise, the last but one off by so much, then a rise of 0.4 m.

    It may be off by 4 mm, and by the 3 mm a meter of the rise by which a hold may drift: 5.2 mm.
    """
    z = np.concatenate((np.zeros(10), 0.05 * np.arange(1.0, 9.0)))
    z[7], z[8] = 0.0005, off
    contact = Knot(17.0, 0.01, float(z[-1]), 0.05, 0.05)
    assert bottom(np.arange(18.0), z, contact, noise=1e-3, fps=FPS).held is held


@pytest.mark.parametrize("fps", [24.0, 60.0, 120.0])
def test_a_slow_start_out_of_a_noisy_hold_is_one_at_any_rate(fps):
    # x = d s³ over 0.3 s: in its first tenth of a second it rises 15 mm, three times a noise of 5 mm. Seen from the air
    # the hold before it is one, whatever the samples a second: it is looked for over two frames of film.
    seconds = np.arange(0.0, 1.4, 1.0 / fps)
    s = np.clip((seconds - 1.0) / 0.3, 0.0, None)
    clean, speed = DISTANCE * np.minimum(s, 1.0) ** 3, 3.0 * DISTANCE / 0.3 / fps
    contact = Knot(1.3 * fps, 0.1, DISTANCE, speed, 0.0)
    rng = np.random.default_rng(3)
    near = []
    for _ in range(50):
        noisy = clean + rng.normal(0.0, 0.005, len(clean))
        near.append(bottom(seconds * fps, noisy, contact, noise=0.005, fps=fps, rough=True))
    assert sum(one.held for one in near) >= 48
    # The last sample of the hold lies before the push has risen by a tenth, at 0.46 of it.
    assert np.mean([one.frame / fps < 1.0 + 0.46 * 0.3 for one in near]) >= 0.9


@pytest.mark.parametrize("noise", [2e-4, 1e-3, 3e-3])
@pytest.mark.parametrize("fps", [24.0, 60.0])
def test_the_end_of_a_hold_is_as_unsure_as_it_misses(fps, noise):
    # A constant push of a quarter of a second out of a hold: 68.27 % of normal misses lie within one error. That
    # quantile of n misses is known to 0.962 / sqrt(n) of itself; two of it are chance.
    rng = np.random.default_rng(1)
    length, misses, errors = PUSH * fps / 24.0, [], []
    contact_speed = 2 * DISTANCE / length
    for _ in range(400):
        start = 20.0 + rng.uniform()
        frames = np.arange(0.0, start + length + 1)
        heights = DISTANCE * np.clip((frames - start) / length, 0.0, None) ** 2 + rng.normal(0.0, noise, len(frames))
        contact = Knot(start + length, 0.01, DISTANCE, contact_speed, contact_speed)
        result = bottom(frames, heights, contact, noise=noise, fps=fps)
        if result.held:
            misses.append(abs(result.frame - start))
            errors.append(result.error)
    assert len(misses) >= 380
    assert 0.7 / 1.1 <= np.median(errors) / np.percentile(misses, 68.27) <= 1.4 * 1.1


@pytest.mark.parametrize(("slow", "samples"), [(5e-3, 2), (1.5e-3, 3), (1e-3, 4), (0.6e-3, 5)])
def test_a_point_is_at_rest_over_as_many_samples_as_outdo_its_noise(slow, samples):
    # Samples of a hold lie up to 4 mm apart where they scatter by 1: so far a point that just moves takes 4 mm / slow
    # samples, two at least, and two frames of film, five samples of 60 a second, at most.
    assert _samples_over(1e-3, slow, 2.5) == samples


def test_a_vertex_under_noise_is_as_unsure_as_it_misses():
    # It is read where the parabola rises by 20 times its noise, sqrt(40 s / pull) = 4.7 frames to either side: of 9
    # samples with s = 2 mm the vertex errs by s / (2 c2 sqrt(n (n² - 1) / 12)) = 0.0726, of 7 by 0.107.
    rng = np.random.default_rng(2)
    push, noise, misses, errors = 15.0, 2e-3, [], []
    for _ in range(400):
        start = 30.0 + rng.uniform()
        frames = np.arange(15.0, start + push + 1.0)
        heights = DISTANCE * ((frames - start) / push) ** 2 + rng.normal(0.0, noise, len(frames))
        speed = 2.0 * DISTANCE / push
        found = bottom(frames, heights, Knot(start + push, 0.01, DISTANCE, speed, speed), noise=noise, fps=60.0)
        misses.append(found.frame - start)
        errors.append(found.error)
    # What skew it may have, 0.8 (Σt⁴ / Σt²)^1.5 / T² = 0.8 · 11.8^1.5 / 225 = 0.144, and 0.07, are in its error too; as
    # sharp before as after, it has none.
    assert 0.0726 <= np.std(misses) <= 0.107
    assert np.median(errors) == pytest.approx(np.hypot(np.hypot(0.0726, 0.144), 0.07), rel=0.1)


def test_a_vertex_of_three_samples_is_unsure_by_the_skew_of_its_two_sides():
    # Σt⁴ / Σt² of three samples is 1: a push of 3 frames leaves 0.8 / 9, and no vertex is known better than 0.07.
    frames = np.arange(0.0, 13.5)
    heights = DISTANCE * ((frames - 10.0) / 3.0) ** 2
    contact = Knot(13.0, 0.01, DISTANCE, 2 * DISTANCE / 3, 2 * DISTANCE / 3)
    found = bottom(frames, heights, contact, noise=0.0, fps=24.0)
    assert found.error == pytest.approx(np.hypot(0.8 / 9.0, 0.07), rel=1e-6)


def test_a_hold_under_noise_past_a_tenth_of_a_millimeter_is_as_high_as_its_samples_on_average():
    # The mean of 10 samples and more is off by 0.15 mm / √10 = 0.05 mm, the lowest of them by 1.5 deviations, 0.23 mm.
    levels = []
    for seed in range(40):
        frames, heights, contact = rise(20.0)
        heights = heights + np.random.default_rng(seed).normal(0.0, 1.5e-4, len(heights))
        levels.append(bottom(frames, heights, contact, noise=1.5e-4, fps=FPS, rough=True).height)
    assert np.sqrt(np.mean(np.square(levels))) < 1e-4
