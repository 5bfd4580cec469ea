"""How strongly the witnesses speak, and how surely they know a contact: each number is ours, held from both sides.

Doubled or halved, each of these numbers changes what is said here.
"""

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from leapwright.analysis.cases.blocking import Posed
from leapwright.analysis.cases.flank import Flank
from leapwright.analysis.cases.flank_samples import FlankSamples
from leapwright.analysis.contacts.ballistic import Parabola, Stretch
from leapwright.analysis.contacts.flights import FlightStretch
from leapwright.analysis.contacts.side import Contact
from leapwright.analysis.events.testimony import Testimony, probability
from leapwright.analysis.events.witnesses import feet, keyed, parabola, posed, stand
from leapwright.analysis.feet import feet_of

from tests.analysis.closed_form import Leap
from tests.analysis.events.heard import only_case
from tests.analysis.events.witnesses.test_keyed import keyed_jump
from tests.analysis.events.witnesses.test_posed import KEYS, blocked
from tests.analysis.shod import shod
from tests.truth.worked import Worked


def believed(*nats: float) -> float:
    return probability([Testimony(one) for one in nats])


@pytest.fixture(scope="module")
def aloft():
    """Return the case of a jump whose feet leave the ground."""
    return only_case(shod(leap=Leap(height=0.45, push=0.4))[0])


def test_feet_off_the_ground_make_a_jump_sure_and_yield_to_what_denies_it_as_strongly(aloft) -> None:
    off = feet.hear(aloft).nats
    assert believed(off) >= 0.95 and believed(off, -7.0) < 0.5


def test_a_foot_that_stays_down_outweighs_six_nats_and_not_an_exact_parabola_with_more() -> None:
    # Up to 1.1 m from 0.9 m: on tiptoe.
    track, _ = shod(leap=Leap(height=0.1, push=0.1))
    down = feet.hear(only_case(replace(track, feet=np.broadcast_to(track.feet[0], track.feet.shape))))
    assert believed(down.nats, 6.0) < 0.2 and believed(down.nats, 12.5) > 0.8


def test_every_witness_is_trusted_nine_times_in_ten_at_most(aloft) -> None:
    assert feet.hear(aloft).takeoff[0].trust == pytest.approx(0.9)


def test_a_foot_rolls_through_a_tenth_of_the_gap_between_two_samples(aloft) -> None:
    (reading,) = feet.hear(aloft).takeoff
    own = feet.feet_over(aloft).takeoff_error
    assert math.sqrt(reading.error**2 - own**2) == pytest.approx(0.1 * aloft.poses.beat, rel=0.05)


@pytest.mark.parametrize(("stretched", "speaks"), [(1.15, True), (1.4, False)])
def test_a_body_a_quarter_higher_over_its_feet_than_it_stands_has_other_feet(stretched: float, speaks: bool) -> None:
    """The feet stay down. The top lies `stretched` times as high over them as the body stands."""
    z = np.concatenate((np.ones(24), 1.0 - 0.3 * np.sin(np.linspace(0, np.pi, 12)),
                        1.0 + (stretched - 1.0) * np.sin(np.linspace(0, np.pi, 12)), np.ones(24)))  # fmt: skip
    track, _ = shod(leap=Leap())
    frames = np.arange(len(z), dtype=float)
    still = np.zeros((len(z), 1, 3))
    tall = replace(track, frames=frames, positions=np.stack((0 * z, 0 * z, z), axis=1), feet=still, key_frames=None)
    assert feet._belong(only_case(tall), feet_of(tall)) is speaks


def test_a_key_is_the_contact_nine_times_in_ten_and_to_a_fiftieth_of_a_frame() -> None:
    track, truth = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)
    first, last, bottom, top = (float(track.frames[0]), float(track.frames[-1]), round(truth["crouch"]),
                                round(truth["apex"]))  # fmt: skip
    inside = [bottom + 2, bottom + 5, bottom + 6, top - 3]
    keys = [first, bottom, *inside, top, top + 4, top + 7, top + 9, top + 10, last]
    readings = keyed.hear(only_case(keyed_jump(keys))).takeoff
    assert sum(reading.trust for reading in readings) == pytest.approx(0.9)
    assert {reading.error for reading in readings} == {0.02}


def test_of_few_poses_one_is_the_contact_nine_times_in_ten() -> None:
    said = posed.hear(only_case(blocked(KEYS)))
    assert sum(reading.trust for reading in said.takeoff) == pytest.approx(0.9)


def flight(*, reach: float = 1.0, count: int = 12, loose: bool = False, exact: bool = False) -> FlightStretch:
    """Return a flight over so many samples whose parabola reaches this share of the speed beside it."""
    f = np.arange(float(count))
    z = 1.0 + 0.01 * ((count / 2) ** 2 - (f - count / 2) ** 2) + (0.0 if exact else 0.002) * (-1.0) ** np.arange(count)
    poses = SimpleNamespace(frames=f, heights=z, noise=0.0, beat=1.0, held=False, by_hand=False)
    stretch = Stretch(0, count - 1, Parabola(count / 2, 1.0, 0.0, -0.01), 0.0 if exact else 0.002)
    ends = (Contact(-0.5, 0.1, None), Contact(-(count - 0.5), 0.1, None))
    return FlightStretch(stretch, poses, reach, loose, *ends)


def seen_by(one: FlightStretch, *, bob: float = 1e3, noise: float = 0.0) -> SimpleNamespace:
    """Return a case with this flight; bob: nats of its contacts against a bob."""
    return SimpleNamespace(flight=one, against_a_bob=bob, poses=SimpleNamespace(noise=noise, held=False, beat=1.0),
                           gravity=9.8, fps=24.0)  # fmt: skip


@pytest.mark.parametrize(("reach", "strength"), [(0.76, 0.2), (0.85, 0.5), (1.0, 1.0)])
def test_a_parabola_is_strong_from_seven_tenths_of_the_speed_to_all_of_it(reach, strength) -> None:
    one = flight(reach=reach)
    assert parabola.strength(seen_by(one), one) == pytest.approx(strength)


@pytest.mark.parametrize(("bob", "noise", "strength"), [(12.5, 0.0, 0.5), (25.0, 0.0, 1.0), (6.25, 1e-3, 0.5)])
def test_contacts_settle_it_by_25_nats_and_by_half_of_them_under_noise(bob, noise, strength) -> None:
    one = flight()
    assert parabola.strength(seen_by(one, bob=bob, noise=noise), one) == pytest.approx(strength)


def test_a_parabola_that_is_followed_loosely_counts_for_six_tenths() -> None:
    one = flight(loose=True)
    assert parabola.strength(seen_by(one), one) == pytest.approx(0.6)


@pytest.mark.parametrize(("off", "is_exact"), [(0.7e-4, True), (1.5e-4, False)])
def test_a_curve_is_a_parabola_to_a_ten_thousandth_of_its_height(off: float, is_exact: bool) -> None:
    one = flight(exact=True, count=40)
    height = float(np.ptp(one.poses.heights))
    bent = one.poses.heights + off * height * (-1.0) ** np.arange(40)
    assert parabola._is_exact(replace(one, poses=SimpleNamespace(**{**vars(one.poses), "heights": bent}))) is is_exact


@pytest.mark.parametrize(("change", "trust"), [
    ({"exact": True}, 0.9995), ({"reach": 0.85}, 0.45), ({"reach": 0.7}, 0.1),
])  # fmt: skip
def test_contacts_are_trusted_as_their_parabola_is_followed(change: dict, trust: float) -> None:
    one = flight(**change)
    assert parabola.hear(seen_by(one)).takeoff[0].trust == pytest.approx(trust)


def side(*, stands: float = 1.0, dip: float = 0.4, seen: bool = True, speed: float = 0.1) -> Flank:
    """Return a flank that rises at an even speed (meters a frame) from under the stand to well over it."""
    frames = np.arange(0.0, 41.0)
    samples = FlankSamples(frames.tolist(), (stands - dip + speed * frames).tolist())
    return Flank(samples, stands if seen else None, (stands,))


@pytest.mark.parametrize(("dip", "rise", "size"), [
    (0.025, 0.08, 1.0), (0.75, 1.0, 1.0), (0.85, 1.0, 3.4),
])  # fmt: skip
def test_a_crouch_of_up_to_eight_tenths_of_a_height_makes_it_the_bodys_own(dip, rise, size) -> None:
    """Otherwise the body is taken to stand four times as high as it crouches."""
    assert stand._size(side(dip=dip, speed=(dip + rise) / 40).samples, 1.0) == pytest.approx(size)


@pytest.mark.parametrize(
    ("toes", "share", "spread"), [(stand.DRAWN_TOES, 0.06, 0.03), (stand.MEASURED_TOES, 0.075, 0.04)]
)
def test_the_toes_leave_so_far_over_the_stand_give_or_take_some_hundredths(toes, share, spread) -> None:
    """1 m high, 0.1 m a frame: 6 cm over the stand are 0.6 frames after it, 3 cm 0.3 frames."""
    (reading,) = stand._crossing(side(), toes)
    at_stand = side().samples.crossing(1.0)[0]
    assert reading.frame - at_stand == pytest.approx(10 * share, abs=0.01)
    assert reading.error == pytest.approx(10 * spread, rel=0.01)
    assert reading.trust == pytest.approx(0.9)


def test_a_stand_that_is_not_seen_beside_the_jump_is_known_less_than_half_as_well() -> None:
    own, others = (stand._crossing(side(seen=seen, speed=0.02), stand.DRAWN_TOES)[0].error for seen in (True, False))
    assert others / own == pytest.approx(2.25, rel=0.01)


def test_of_two_levels_that_it_may_stand_at_each_is_believed_by_half() -> None:
    both = stand._crossing(replace(side(seen=False, speed=0.05), elsewhere=(1.0, 1.1)), stand.DRAWN_TOES)
    # From 0.6 m, at 0.05 m a frame: 6 % over 1.0 m at frame (1.06 - 0.6) / 0.05, over 1.1 m at 11.32.
    assert [found.frame for found in both] == pytest.approx([9.2, 11.32])
    assert [found.trust for found in both] == pytest.approx([0.45, 0.45])


def test_beside_feet_and_beside_an_exact_parabola_the_stand_has_nothing_to_say(aloft) -> None:
    assert stand._known(aloft) == (True, True)
    for exact in (True, False):
        case = SimpleNamespace(**vars(seen_by(one := flight(exact=exact))), feet=None, posed=None)
        case.poses.frames, case.turn, case.poses.step = one.poses.frames, SimpleNamespace(top=6), 1
        assert stand._known(case) == (exact, exact)


@pytest.mark.parametrize(("takeoffs", "landings"), [(1, 1), (2, 1), (1, 2)])
def test_where_one_pose_each_may_be_the_contacts_the_stand_has_nothing_to_say(takeoffs, landings) -> None:
    keys = [tuple((float(frame), 1.0 / count) for frame in range(count)) for count in (takeoffs, landings)]
    posed = Posed(0.0, keys[0], 5.0, keys[1], None, 0.4)
    case = SimpleNamespace(**vars(seen_by(one := flight(exact=False))), feet=None, posed=posed)
    case.poses.frames, case.turn, case.poses.step = one.poses.frames, SimpleNamespace(top=6), 1
    assert all(stand._known(case)) is (takeoffs == landings == 1)
