"""Takeoff and landing are found in the same way, in two directions of time, for all flights of a track at once."""

import numpy as np
import pytest
from leapwright.analysis.contacts.ballistic import Stretch, parabola_over
from leapwright.analysis.contacts.by_drive import contacts
from leapwright.analysis.contacts.side import falling_side, rising_side

from tests.truth.worked import PUSHES, Worked

FPS = 24.0


def sides(jump, *, phase=0.3, fps=FPS, noise=0.0, seed=0):
    """Return both sides of a worked jump with its true air samples, and the true frames of the events."""
    track, truth = jump.track(fps=fps, phase=phase)
    f, z = track.frames, track.heights + np.random.default_rng(seed).normal(0, noise, len(track.frames)) * bool(noise)
    first = int(np.searchsorted(f, truth["takeoff"], side="right"))
    last = int(np.searchsorted(f, truth["landing"])) - 1
    return [seen(side, f, z, first, last, fps=fps, noise=noise) for side in (rising_side, falling_side)], truth


def seen(side, f, z, first, last, *, fps=FPS, noise=0.0):
    """Return one side of a flight whose samples in the air are these."""
    parabola, *_ = parabola_over(f[first : last + 1], z[first : last + 1])
    return side(f, z, Stretch(first, last, parabola, noise), parabola, fps)


JUMP = Worked(height=0.45, push=0.4)


@pytest.mark.parametrize("phase", [0.0, 0.25, 0.5, 0.9])
def test_contacts_of_a_constant_force_are_found_between_frames(phase):
    both, truth = sides(JUMP, phase=phase)
    takeoff, landing = contacts(both, noise=1e-6, fps=FPS)
    assert takeoff.frame == pytest.approx(truth["takeoff"], abs=0.02)
    assert -landing.frame == pytest.approx(truth["landing"], abs=0.02)
    assert takeoff.bottom.frame == pytest.approx(truth["crouch"], abs=0.05)
    assert -landing.bottom.frame == pytest.approx(truth["absorbed"], abs=0.05)


@pytest.mark.parametrize("shape", PUSHES)
@pytest.mark.parametrize("phase", [0.1, 0.4, 0.7])
def test_the_sharper_a_push_ends_the_better_its_takeoff_is_known(shape, phase):
    # In the first two pushes the force drops to zero from two or three times its mean. In the others only the body's
    # weight is left by then, so that height, speed and acceleration hardly show when it goes.
    both, truth = sides(Worked(height=0.45, push=0.4, shape=shape), phase=phase)
    takeoff = contacts(both, noise=1e-6, fps=FPS)[0]
    sharp = shape in ("constant force", "rising force")
    assert takeoff.frame == pytest.approx(truth["takeoff"], abs=0.05 if sharp else 0.75)


def test_all_contacts_at_once_are_each_contact_alone():
    (a, b), _ = sides(JUMP)
    (c, d), _ = sides(Worked(height=0.8, push=0.3, drop=0.5), phase=0.6)
    together = contacts([a, b, c, d], noise=1e-6, fps=FPS)
    for side, both in zip((a, b, c, d), together, strict=True):
        (alone,) = contacts([side], noise=1e-6, fps=FPS)
        assert alone.frame == pytest.approx(both.frame, abs=1e-4)
        assert alone.error == pytest.approx(both.error, rel=1e-2)


def test_a_landing_is_a_takeoff_backward():
    both, _ = sides(JUMP, phase=0.0)
    track, truth = JUMP.track(fps=FPS)
    f, z = -track.frames[::-1], track.heights[::-1]
    first = int(np.searchsorted(f, -truth["landing"], side="right"))
    last = int(np.searchsorted(f, -truth["takeoff"])) - 1
    mirrored = seen(rising_side, f, z, first, last)
    landing, takeoff = contacts([both[1]], noise=1e-6, fps=FPS)[0], contacts([mirrored], noise=1e-6, fps=FPS)[0]
    assert takeoff.frame == pytest.approx(landing.frame, abs=0.02)


def test_a_track_that_begins_in_the_air_has_no_takeoff():
    track, truth = JUMP.track(fps=FPS)
    first = int(np.searchsorted(track.frames, truth["takeoff"], side="right"))
    f, z = track.frames[first:], track.heights[first:]
    last = int(np.searchsorted(f, truth["landing"])) - 1
    side = seen(rising_side, f, z, 0, last)
    assert contacts([side], noise=1e-6, fps=FPS) == [None]


def test_no_contact_is_claimed_to_be_known_exactly():
    # To a two-hundredth of a sample at best (ours); a tenth of a millimeter moves a takeoff by less (below).
    for contact in contacts(sides(JUMP)[0], noise=1e-6, fps=FPS):
        assert contact.error == pytest.approx(0.005, rel=0.1)


def test_noise_makes_contacts_less_sure():
    def unsure(noise):
        drawn = [side for seed in range(12) for side in sides(JUMP, fps=60.0, noise=noise, seed=seed)[0]]
        return np.mean([contact.error for contact in contacts(drawn, noise=noise, fps=60.0)])

    assert unsure(0.001) < unsure(0.003) < unsure(0.009)


def test_no_side_gives_no_contact():
    assert contacts([], noise=1e-6, fps=FPS) == []


def test_a_start_that_is_averaged_over_onsets_shares_nothing_with_its_takeoff():
    # 80 draws under 4 mm of noise: of two numbers that share nothing the correlation is within 2 / √80 in 95 of 100.
    bottoms, frames = [], []
    for seed in range(1, 81):
        both, _ = sides(Worked(height=0.45, push=0.4, hold=0.4), noise=0.004, seed=seed)
        contact = contacts(both, noise=0.004, fps=FPS)[0]
        bottoms.append(contact.bottom.frame)
        frames.append(contact.frame)
        assert contact.bottom.along == 0.0
    assert abs(np.corrcoef(bottoms, frames)[0, 1]) < 2.0 / np.sqrt(80.0)


def test_a_jump_written_to_a_tenth_of_a_millimeter_is_read_as_it_was_drawn():
    # Rounding leaves 0.1 mm / √12 = 0.029 mm, 4.8e-5 of a push of 0.6 m. It moves a takeoff at 0.14 m a frame, where
    # the force of 2 g ends, by some thousandths of a frame.
    for phase in np.linspace(0.0, 0.975, 40):
        track, truth = Worked(height=0.6, push=0.6).track(fps=FPS, phase=float(phase))
        first = int(np.searchsorted(track.frames, truth["takeoff"], side="right"))
        last = int(np.searchsorted(track.frames, truth["landing"])) - 1
        written = np.round(track.heights, 4)
        (contact,) = contacts([seen(rising_side, track.frames, written, first, last)], noise=1e-6, fps=FPS)
        assert contact.frame == pytest.approx(truth["takeoff"], abs=0.005)
        assert contact.error < 0.01


def test_a_push_that_holds_one_or_two_samples_starts_about_where_one_by_a_usual_force_does():
    # 2 d / v = 1.53 frames. Any force goes through so few samples: the push has the usual one, which is not known.
    off, said = [], []
    for phase in np.linspace(0.0, 0.95, 20):
        both, truth = sides(Worked(height=0.5, push=0.1), phase=float(phase))
        low = contacts(both[:1], noise=1e-6, fps=FPS)[0].bottom
        off.append(low.frame - truth["crouch"])
        said.append(low.error)
    assert np.sqrt(np.mean(np.square(off))) < 0.22
    assert np.all(np.abs(off) <= 2.0 * np.array(said))


@pytest.mark.parametrize(("push", "exact"), [(0.13, False), (0.3, True)])
def test_a_power_law_is_exact_where_more_samples_follow_it_than_any_would(push: float, exact: bool) -> None:
    # 2 d / v = 2 or 4.6 frames out of a hold: one or two samples, or four or five.
    for phase in np.linspace(0.0, 0.9, 10):
        both, truth = sides(Worked(height=0.5, push=push), phase=float(phase))
        takeoff = contacts(both[:1], noise=1e-6, fps=FPS)[0]
        assert (takeoff.error < 0.02) is exact
        assert (abs(takeoff.bottom.frame - truth["crouch"]) < 1e-3) or not exact
