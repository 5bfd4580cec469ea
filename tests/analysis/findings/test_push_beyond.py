"""push-beyond: said when, and only when, the push ratio is above what the kind of jumper reaches."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import GRAVITIES, Limits, Track, World
from leapwright.analysis.findings import push_beyond
from leapwright.analysis.jump import measure

from tests.analysis.closed_form import Leap, build, codes, found, measured
from tests.analysis.findings.one import only
from tests.analysis.shod import walked


@pytest.mark.parametrize(
    # Largest push ratios of each kind: world.KINDS, with their sources; a little under and over them.
    ("kind", "ratio", "told"),
    [
        ("person", 1.55, False),
        ("person", 1.65, True),
        ("cat", 3.9, False),
        ("cat", 4.1, True),
        ("galago", 13.5, False),
        ("galago", 14.5, True),
        ("insect", 134.0, False),
        ("insect", 138.0, True),
        ("froghopper", 400.0, False),
        ("froghopper", 416.0, True),
    ],
)
def test_each_kind_has_its_own_ceiling(kind: str, ratio: float, told: bool) -> None:
    assert ("push-beyond" in codes(Leap(height=2.0, push=2.0 / ratio), World(kind=kind))) is told


def test_it_is_a_note_with_the_body_weights() -> None:
    finding = only("push-beyond", Leap(height=0.9, push=0.3))
    assert finding.severity == "note"
    # R = 3, R + 1 = 4 body weights (OpenStax College Physics 2e, problem 4.46: 0.300 m and 0.900 m).
    assert finding.message.startswith("The push lifts with 4.0 times the body's weight there")


def test_a_ratio_known_too_loosely_is_not_told() -> None:
    assert "push-beyond" not in codes(Leap(height=0.6, push=0.6 / 1.8, error=0.5))


@pytest.mark.parametrize(
    ("world", "ratio", "told"),
    [
        # R = (1.6 + 1) 9.80665 / (g s) - 1, worked by hand: Moon 14.74, Jupiter 0.0285, half 4.2, double 0.3.
        (World(gravity=GRAVITIES["moon"]), 14.5, False),
        (World(gravity=GRAVITIES["moon"]), 15.0, True),
        (World(gravity=GRAVITIES["jupiter"]), 0.025, False),
        (World(gravity=GRAVITIES["jupiter"]), 0.04, True),
        (World(size=0.5), 4.1, False),
        (World(size=0.5), 4.3, True),
        (World(size=2.0), 0.29, False),
        (World(size=2.0), 0.31, True),
    ],
)
def test_another_world_and_another_size_have_their_own(world: World, ratio: float, told: bool) -> None:
    leap = Leap(height=0.3, push=0.3 / ratio, gravity=world.gravity)
    assert ("push-beyond" in codes(leap, world)) is told


def test_a_body_too_heavy_to_lift_itself_is_told_so() -> None:
    # Three times a person's size: (2.6 / 3) - 1 is under 0.
    jump = measured(Leap(height=0.3, push=0.6), World(size=3.0))
    assert jump.reach == pytest.approx(2.6 / 3.0 - 1.0)
    assert "does not lift itself" in only("push-beyond", jump).message


def test_the_feet_tell_the_size() -> None:
    # The closed-form body stands 1 m over its feet, a person 0.97 m.
    assert walked().size == pytest.approx(1.0 / 0.97, rel=0.02)
    assert measured().size == 1.0


def test_a_run_up_lends_height() -> None:
    # Running at 5 m/s is worth v² / 2 g = 25 / 19.61 = 1.27 m of height: 3.2 times the push of 0.4 m, where the ratio
    # is 2.5.
    track, phases = build(Leap(height=1.0, push=0.4))
    x = track.frames / track.fps * 5.0
    run = Track("run", 24, track.frames, np.column_stack((x, 0 * x, track.heights)))
    assert "push-beyond" in found(measure(track, phases, World()))
    assert "push-beyond" not in found(measure(run, phases, World()))


@pytest.mark.parametrize(("speed", "told"), [(2.5, True), (2.8, False)])
def test_a_run_up_lends_the_height_of_its_speed_squared_over_twice_gravity(speed: float, told: bool) -> None:
    # 1 m out of 0.4 m is 2.5, and a person reaches 1.6: 0.9 of 0.4 m are 0.36 m, worth sqrt(2 g 0.36) = 2.657 m/s.
    jump = measured(Leap(height=1.0, push=0.4))
    jump = replace(jump, push=replace(jump.push, approach=speed))
    assert (push_beyond.find(jump, Limits()) is not None) is told


@pytest.mark.parametrize(("error", "told"), [(0.14, True), (0.16, False)])
def test_two_errors_under_its_ratio_must_lie_beyond(error: float, told: bool) -> None:
    jump = measured(Leap(height=0.57, push=0.3))  # 1.9: 0.3 past a person's 1.6
    jump = replace(jump, push=replace(jump.push, ratio=replace(jump.push.ratio, error=error)))
    assert (push_beyond.find(jump, Limits()) is not None) is told


def test_its_mend_is_the_depth_for_the_height_or_the_height_for_the_depth() -> None:
    # 0.9 m at 1.6 ask for 0.5625 m of push, and 0.3 m of push reach 0.48 m.
    finding = only("push-beyond", Leap(height=0.9, push=0.3))
    assert finding.mend.startswith("Crouch 0.56 m deep, or rise 0.48 m")
