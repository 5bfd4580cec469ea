"""What limbs may explain of a push or a flight: the meters that hips would have to be off, worked out by hand."""

from dataclasses import replace

import pytest
from leapwright.analysis import Followed, Jump, Limits, World
from leapwright.analysis.findings import arc_broken, push_long, push_short
from leapwright.analysis.findings.basis.body import limb_room, sinks
from leapwright.analysis.measures.arc import FreeSides

from tests.analysis.closed_form import Leap, measured

ARMS = 0.0582
"""Meters: 0.06 of the 0.97 m that a person stands high (raised arms move a man's center of mass 5.9 of 97 cm: de Leva
1996)."""


def hips(jump: Jump, *, share: float = 0.02, rms: float = 0.01, free: FreeSides | None = None) -> Jump:
    """Return the jump of a body whose hips leave their arc by so much of its height, at most and rms."""
    height = jump.flight.height.value
    residual = replace(jump.shape.residual, worst=share * height, rms=rms * height)
    shape, flight = replace(jump.shape, residual=residual), replace(jump.flight, free=free)
    return replace(jump, follows=Followed.BODY, shape=shape, flight=flight)


@pytest.mark.parametrize(
    ("height", "push", "stretch", "off"),
    # A takeoff that is x too low has d - x and h + x for d and h: (d - x) / (h + x) = b, so x = (b h - d) / (1 + b).
    # b is the most that a push of F frames fits, in rises of T = 24 sqrt(2 h / g) frames: (F - 1) / T or F / 1.25 T.
    [
        # T = 6.855, F = 1.62 T = 11.10: 8.884 of 11.10 / 1.25 is under 10.10, so b = 1.296
        (0.4, 0.4, 1.62, 0.0516),
        # F = 1.72 T: b = 1.376
        (0.4, 0.4, 1.72, 0.0633),
        # T = 7.664, F = 2.285 · T / 5 = 3.502: 2.502 is under 3.502 / 1.25 = 2.802, so b = 0.3265
        (0.5, 0.1, 2.285, 0.0477),
        # F = 2.7 · T / 5 = 4.138: 3.138, so b = 0.4095
        (0.5, 0.1, 2.7, 0.0743),
    ],
)
def test_a_long_push_may_be_what_arms_make_of_it(height: float, push: float, stretch: float, off: float) -> None:
    jump = hips(measured(Leap(height=height, push=push, push_stretch=stretch)))
    assert (push_long.find(jump, Limits()).limbs is not None) is (off < ARMS)


@pytest.mark.parametrize(
    ("stretch", "fps", "off"),
    # The same of a push that is short: x = (d - b h) / (1 + b), b the least that fits, (F + 1) / 0.85 T or F / 0.75 T.
    [
        # T = 6.855, F = T / 2 = 3.427: 4.427 / 0.85 = 5.209 is over 3.427 / 0.75, so b = 0.7599
        (0.5, 24.0, 0.0546),
        # F = 0.46 T: 4.153 / 0.85 = 4.886, b = 0.7128
        (0.46, 24.0, 0.0671),
        # T = 17.137, F = 0.57 T = 9.768: 13.024 of 9.768 / 0.75 is over 10.768 / 0.85, so b = 0.76
        (0.57, 60.0, 0.0545),
        # F = 0.53 T: b = 0.7067
        (0.53, 60.0, 0.0688),
    ],
)
def test_a_short_push_may_be_what_arms_make_of_it(stretch: float, fps: float, off: float) -> None:
    jump = hips(measured(Leap(height=0.4, push=0.4, push_stretch=stretch, fps=fps)))
    assert (push_short.find(jump, Limits()).limbs is not None) is (off < ARMS)


@pytest.mark.parametrize(("stretch", "finding"), [(1.8, push_long), (0.45, push_short)])
def test_hips_off_their_arc_may_rise_for_as_long_as_any_of_three_readings(stretch: float, finding) -> None:
    # By b of 1.44 and 0.698, 0.0721 and 0.0711 m: past what arms do. In a rise that is a tenth longer for the long
    # push, 7.540 frames, b = 1.309 and x = 0.0535 m; a tenth shorter for the short one, 6.169: b = 0.778, x = 0.0500 m.
    jump = measured(Leap(height=0.4, push=0.4, push_stretch=stretch))
    rise, fall = jump.flight.rise.value, jump.flight.fall.value
    other = FreeSides(rise * (1.1 if stretch > 1.0 else 0.9), fall)
    assert finding.find(hips(jump), Limits()).limbs is None
    assert finding.find(hips(jump, free=other), Limits()).limbs is not None


def test_hips_on_their_arc_are_the_body() -> None:
    # Those of a recorded jump leave it by 0.9 to 1.7 % of its height: up to 1.5 % is the body's own flight.
    jump = measured(Leap(height=0.4, push=0.4, push_stretch=1.62))
    assert push_long.find(hips(jump, share=0.014), Limits()).limbs is None
    assert push_long.find(hips(jump, share=0.016), Limits()).limbs is not None


def test_hips_that_fly_no_arc_tell_nothing_of_a_push() -> None:
    # Past 15 % rms of the height (a backflip's are 19 to 34 %), however far off the push is.
    jump = measured(Leap(height=0.4, push=0.4, push_stretch=3.0))
    assert push_long.find(hips(jump, share=0.3, rms=0.14), Limits()).limbs is None
    assert push_long.find(hips(jump, share=0.3, rms=0.16), Limits()).limbs is not None


@pytest.mark.parametrize(
    ("world", "push", "room"),
    [
        # A tenth of the height over the feet: of a person 0.97 m, of one twice as large 1.94 m
        (World(), 0.3, 0.097),
        (World(size=2.0), 0.3, 0.194),
        # legs that push 0.6 m are those of a body of 1.2 m at least
        (World(), 0.6, 0.12),
        # no table has a cat's height: twice the push, or twice the absorb of 0.3 m where that is more
        (World(kind="cat"), 0.4, 0.08),
        (World(kind="cat"), 0.2, 0.06),
    ],
)
def test_limbs_move_hips_by_a_tenth_of_the_body(world: World, push: float, room: float) -> None:
    jump = replace(measured(Leap(push=push), world), follows=Followed.BODY)
    assert limb_room(jump) == pytest.approx(room, rel=1e-6)
    # legs 20 cm up move a man's center of mass by 7.9 cm and both arms by 5.9 cm (de Leva 1996): a tenth lies between
    # the one and both
    assert limb_room(measured(Leap(push=push), world)) == 0.0
    # what a body sinks at most is six tenths of the same height
    assert sinks(jump) == pytest.approx(6.0 * room, rel=1e-6)


def test_hips_a_tenth_of_the_body_off_their_arc_may_be_its_limbs() -> None:
    # 0.09 m of a jump of a meter, and 0.10 m: over 4 % of its height both, and on either side of 0.097 m.
    jump = measured(Leap(height=1.0))
    assert arc_broken.find(hips(jump, share=0.09), Limits()).limbs is not None
    assert arc_broken.find(hips(jump, share=0.1), Limits()).limbs is None
