"""Contact: what the feet of one jump do; leave and touch, slide and sink."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import World
from leapwright.analysis.feet import feet_of
from leapwright.analysis.measures.contact import measure_contact, size_of

from tests.analysis.closed_form import Leap, build
from tests.analysis.shod import Shoes, shod, walked


def test_a_track_without_feet_says_nothing_of_them() -> None:
    track, phases = build(Leap())
    assert measure_contact(track, phases) is None
    assert feet_of(track) is None


def test_a_foot_that_stays_down_keeps_the_body_on_the_ground() -> None:
    track, phases = shod()
    feet = track.feet.copy()
    feet[:, 1] = feet[0, 1]
    assert feet_of(replace(track, feet=feet)).gaps() == []
    assert measure_contact(replace(track, feet=feet), phases).off is None


def test_the_last_foot_to_leave_and_the_first_to_touch_count() -> None:
    track, phases = shod()
    long = shod(Shoes(off=2.0, on=-3.0))[0].feet
    feet = np.stack((track.feet[:, 0], long[:, 1]), axis=1)
    told = measure_contact(replace(track, feet=feet), phases)
    assert told.off.value == pytest.approx(phases.takeoff.frame + 2.0, abs=0.15)
    assert told.on.value == pytest.approx(phases.landing.frame - 3.0, abs=0.15)


@pytest.mark.parametrize("ground", [None, 2.0])
def test_the_ground_need_not_be_at_zero(ground: float | None) -> None:
    told = measure_contact(*shod(Shoes(floor=2.0, ground=ground)))
    phases = shod()[1]
    assert told.off.value == pytest.approx(phases.takeoff.frame, abs=0.1)
    assert told.below == pytest.approx(1.0, abs=0.01)


def test_a_bone_over_its_sole_stands_where_it_stands_over_a_given_ground() -> None:
    told = measure_contact(*shod(Shoes(sole=0.06, ground=0.0)))
    assert told.sink.distance == pytest.approx(0.0, abs=1e-9)
    assert told.off.value == pytest.approx(shod()[1].takeoff.frame, abs=0.1)


@pytest.mark.parametrize("sink", [0.02, 0.06])
def test_a_foot_that_dips_and_comes_back_has_sunk(sink: float) -> None:
    jump = walked(Shoes(sink=sink))
    assert jump.feet.sink.distance == pytest.approx(sink, abs=1e-9)
    landing = jump.landing.frame
    assert landing <= jump.feet.sink.frames[0] <= jump.feet.sink.frames[1] <= landing + 3
    assert jump.feet.on.value == pytest.approx(landing, abs=0.1)


def test_a_foot_that_stays_sunk_shows_against_a_given_ground_only() -> None:
    track, phases = shod()
    low = track.feet - np.where(track.frames >= phases.landing.frame, 0.05, 0.0)[:, None, None] * [0, 0, 1]
    assert measure_contact(replace(track, feet=low), phases).sink.distance < 1e-9
    told = measure_contact(replace(track, feet=low, ground=0.0), phases)
    assert told.sink.distance == pytest.approx(0.05, abs=1e-9)


def test_the_slide_is_how_far_a_planted_foot_moves() -> None:
    # Of the 5.65 frames of the push, the five from 16 to 20 have the foot flat: four steps between them.
    jump = walked(Shoes(push_slide=0.10))
    assert jump.feet.slide.distance == pytest.approx(0.10 * 4.0 / 5.65, rel=0.01)
    assert jump.crouch.frame <= jump.feet.slide.frames[0] < jump.feet.slide.frames[1] <= jump.takeoff.frame
    assert walked().feet.slide.distance == pytest.approx(0.0, abs=1e-9)


def test_noise_moves_a_contact_little_and_is_told() -> None:
    # Feet that leave the ground by 0.5 π m a flight of 14.5 frames pass 3 mm in 0.03 frame.
    told = measure_contact(*shod(Shoes(noise=0.003)))
    phases = shod()[1]
    assert told.off.value == pytest.approx(phases.takeoff.frame, abs=0.1)
    assert told.on.value == pytest.approx(phases.landing.frame, abs=0.1)
    assert told.noise == pytest.approx(0.003, rel=0.5)


@pytest.mark.parametrize(
    ("world", "below", "size"),
    [
        # A person stands 0.97 m over the feet (0.556 of 1.741 m: de Leva 1996): 1.94 m are one twice as large.
        (World(), 1.94, 2.0),
        (World(), 0.485, 0.5),
        (World(size=3.0), 1.94, 3.0),
        (World(), 0.0, 1.0),
        (World(kind="cat"), 1.94, 1.0),
    ],
)
def test_the_height_over_the_feet_tells_the_size_where_nothing_says_it(world: World, below: float, size: float) -> None:
    assert size_of(world, replace(walked().feet, below=below)) == pytest.approx(size)
