"""The keys as a witness: uneven keys are offered as contacts, all equally likely; regular ones tell nothing."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World
from leapwright.analysis.cases.collect import cases_of
from leapwright.analysis.events.witnesses import keyed
from leapwright.analysis.samples.poses import poses_of

from tests.analysis.events.heard import only_case
from tests.truth.worked import Worked


def keyed_jump(keys: list[float]) -> Track:
    track, _ = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)
    return Track("Brindle", 24, track.frames, track.positions, key_frames=keys, interpolation="bezier")


def test_each_key_between_bottom_and_top_may_be_the_contact() -> None:
    track, truth = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)
    bottom, top = round(truth["crouch"]), round(truth["apex"])
    inside = [bottom + 2, bottom + 5, bottom + 6, top - 3]
    first, last = float(track.frames[0]), float(track.frames[-1])
    said = keyed.hear(only_case(keyed_jump([first, bottom, *inside, top, top + 4, top + 7, top + 9, top + 10, last])))
    assert [reading.frame for reading in said.takeoff] == inside
    assert sum(reading.trust for reading in said.takeoff) == pytest.approx(keyed.TRUST)
    assert said.nats == 0.0


def test_keys_of_one_height_on_both_sides_are_the_likelier_contacts() -> None:
    # Its contacts are about symmetrical around the apex: 4 frames before and after it the heights are the same, 7 and
    # 2 frames away they are not (0.42 and 0.03 m under it in free fall at 24 frames a second).
    track, truth = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)
    top = round(truth["apex"])
    first, last = float(track.frames[0]), float(track.frames[-1])
    bottom = round(truth["crouch"])
    keys = [first, bottom, top - 7, top - 4, top - 2, top, top + 4, last]
    said = keyed.hear(only_case(keyed_jump(keys)))
    shares = {top - reading.frame: reading.trust for reading in said.takeoff}
    assert set(shares) == {2, 4, 7}
    assert sum(shares.values()) == pytest.approx(keyed.TRUST)
    assert shares[4] > 3 * max(shares[2], shares[7])


def test_half_of_jumps_leave_and_meet_the_ground_at_one_height_to_three_hundredths_of_their_rise() -> None:
    # Frames 14 and 26 have one height; 10 and 17 lie 0.31 and 0.41 of the rise away, 10 standard deviations and more.
    # So 14 is 1 + 1 / (0.03 √(2 π)) = 14.298 times as likely as either: the density of a normal error where it is none,
    # against an even spread over the rise, each with one half.
    frames = np.arange(41.0)
    z = 0.6 + 0.9 * np.exp(-(((frames - 20.0) / 6.0) ** 2))
    track = Track(
        "Brindle", 24, frames, np.stack((0 * z, 0 * z, z), 1), key_frames=[0, 10, 14, 17, 20, 26, 40],
        interpolation="bezier",
    )  # fmt: skip
    said = keyed.hear(only_case(track))
    shares = {reading.frame: reading.trust for reading in said.takeoff}
    assert [shares[14] / shares[other] for other in (10, 17)] == pytest.approx([14.298, 14.298], rel=1e-3)
    assert [reading.frame for reading in said.landing] == [26]


@pytest.mark.parametrize("every", [1, 2, 3, 4])
def test_keys_at_a_regular_beat_say_nothing(every: int) -> None:
    frames = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)[0].frames
    assert keyed.hear(only_case(keyed_jump(np.asarray(frames[::every]).tolist()))) is None


def test_a_top_between_two_keys_of_one_height_is_a_hold_that_overshoots() -> None:
    frames = np.arange(0.0, 80.0)
    keys = [0.0, 8.0, 40.0, 45.0, 55.0, 70.0, 79.0]
    z = 1.0 + np.where((frames > 8) & (frames < 40), 0.08 * np.sin(np.pi * (frames - 8) / 32), 0.0)
    z -= 0.3 * np.exp(-(((frames - 50) / 4) ** 2)) + 0.3 * np.exp(-(((frames - 1) / 3) ** 2))
    track = Track("Brindle", 24, frames, np.stack((0 * z, 0 * z, z), 1), key_frames=keys, interpolation="bezier")
    said = keyed.hear(only_case(track))
    assert said.seen == {"held by keys": 1.0}
    assert said.nats < -2.0


def test_a_top_between_two_keys_of_one_height_may_be_an_arc_that_their_handles_draw() -> None:
    # From 1 m at frame 30 to 1 m at 46 in free fall, 0.54 m high; crouch and absorb by cosines, no key at the apex.
    frames = np.arange(0.0, 80.0)
    t = (frames - 38.0) / 24.0
    air = 1.0 + 0.5 * 9.80665 * ((8.0 / 24.0) ** 2 - t**2)
    ground = 0.8 + 0.2 * np.cos(np.clip((np.abs(frames - 38.0) - 8.0) / 6.0, 0.0, 2.0) * np.pi)
    z = np.where(np.abs(frames - 38.0) <= 8.0, air, ground)
    keys = [0.0, 18.0, 24.0, 30.0, 46.0, 52.0, 58.0, 79.0]
    track = Track("Brindle", 24, frames, np.stack((0 * z, 0 * z, z), 1), key_frames=keys, interpolation="bezier")
    case = next(one for one in cases_of(track, poses_of(track), None, World(), Limits()) if one.turn.top == 38)
    assert any(rest.keyed and (rest.first, rest.last) == (30, 46) for rest in case.course.rests)
    assert keyed.seen(case) == {}
    assert keyed.seen(replace(case, flight=None)) == {"held by keys": 1.0}


def test_a_top_between_keys_that_differ_is_no_hold() -> None:
    track, truth = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)
    bottom, top = round(truth["crouch"]), round(truth["apex"])
    first, last = float(track.frames[0]), float(track.frames[-1])
    keys = [first, bottom, bottom + 2, bottom + 5, bottom + 6, top - 3, top + 4, top + 7, top + 9, top + 10, last]
    assert keyed.seen(only_case(keyed_jump(keys))) == {}
