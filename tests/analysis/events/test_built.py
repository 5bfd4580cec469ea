"""The events once their contacts are known: where apex and bottom lie, and how surely. The bounds are ours, each held
from both sides."""

import math
from types import SimpleNamespace

import numpy as np
import pytest
from leapwright.analysis import Limits, World
from leapwright.analysis.cases.collect import cases_of
from leapwright.analysis.contacts.arcs import is_followed
from leapwright.analysis.contacts.bottom import Bottom
from leapwright.analysis.contacts.side import Contact
from leapwright.analysis.events.built import ARC_HOLDS_SHARE, _bottom, _on_key, _swung, _top, _widened, built
from leapwright.analysis.events.testimony import ContactReading
from leapwright.analysis.phases import Arc, Event, Unpushed
from leapwright.analysis.samples.poses import poses_of
from leapwright.analysis.samples.turns import Turn
from leapwright.analysis.track import Followed, Track

from tests.analysis.events.heard import only_case

TAKEOFF, LANDING = ContactReading(2.0, 0.1, 1.0), ContactReading(22.0, 0.1, 1.0)


def topped(*drops: float) -> SimpleNamespace:
    """Return a case with a rise of 1 m and a plateau: from frame 10 on the samples lie so far under the top (shares of
    the height)."""
    f = np.arange(25.0)
    z = 1.0 - np.abs(f - 12.0) / 10.0
    z[10 : 10 + len(drops)] = 1.0 - np.array(drops)
    poses = SimpleNamespace(frames=f, heights=z, beat=1.0)
    return SimpleNamespace(poses=poses, turn=SimpleNamespace(top=12), fps=24.0)


@pytest.mark.parametrize(("residual", "noise", "follows"), [
    (0.024, 0.0, True), (0.035, 0.0, False), (0.035, 0.02, True), (0.035, 0.006, False),
])  # fmt: skip
def test_a_flight_follows_its_arc_to_three_hundredths_of_its_height_beyond_the_noise(residual, noise, follows) -> None:
    """A parabola over 18 frames at 24 a second, 0.69 m high; its samples miss it by a share of that."""
    height = 9.8 * (9 / 24) ** 2 / 2
    arc = Arc(12.0, 1.0, 9.8, 0.1, 3.0, 21.0, 19, residual * height)
    assert is_followed(arc, noise=noise * height, fps=24.0, loose=ARC_HOLDS_SHARE) is follows


def test_what_lies_three_hundredths_under_the_top_is_as_high_as_it() -> None:
    """Frames 11 to 13 lie within 2.4 % under the top, frames 10, 14 and 15 beyond 3.6 %: the apex is the middle of the
    three, ± 3/√12."""
    apex = _top(topped(0.036, 0.024, 0.0, 0.024, 0.036, 0.036), TAKEOFF, LANDING)
    assert apex.frame == pytest.approx(12.0)
    assert apex.frame_error == pytest.approx(3.0 / math.sqrt(12.0))


def test_the_far_end_of_a_push_out_of_a_hold_is_known_to_a_fifth_of_it_or_so() -> None:
    # Of drawn and integrated pushes half begin within 0.1 of their length from where they are said to, 95 % within
    # 0.35. So one standard error is at least 0.1 / 0.6745 (the quartile of a normal variable), and less than 0.35.
    held = _widened(Bottom(4.0, 0.0, 0.5, True, False), 14.0)
    assert 0.1 / 0.6745 * 0.9 <= held.error / 10.0 <= 0.3
    turned = Bottom(4.0, 0.2, 0.5, False, False)
    assert _widened(turned, 14.0) == turned


def test_limbs_that_swing_leave_a_contact_unsure_by_a_twentieth_of_the_rise() -> None:
    # They carry the hips by a tenth of the height, h / 10; at the speed of a contact, 2 h / t, that takes t / 20.
    case = SimpleNamespace(follows=Followed.BODY, poses=SimpleNamespace(held=False), flight=None)
    swung = _swung(case, ContactReading(2.0, 0.3, 1.0), Event(12.0, 0.0, 1.0))
    assert math.sqrt(swung.error**2 - 0.3**2) / 10.0 == pytest.approx(1 / 20, rel=0.2)


@pytest.mark.parametrize(("off", "same"), [(0.0, True), (0.85, True), (-0.85, True), (0.95, False)])
def test_a_contact_within_three_errors_of_the_flights_own_ends_the_same_push(off: float, same: bool) -> None:
    # A constant push out of a hold at frame 10; the flight's own takeoff is known to 0.3 frame, three of which are 0.9.
    frames = np.arange(0.0, 30.0)
    heights = 0.4 * (np.clip(frames - 10.0, 0.0, None) / 6.0) ** 2
    case = SimpleNamespace(poses=SimpleNamespace(frames=frames, heights=heights, noise=0.0), fps=24.0)
    started = Bottom(9.5, 0.4, 0.0, True, False)
    found = _bottom(case, None, Event(16.0 + off, 0.2, 0.4), Contact(16.0, 0.3, started), sign=1.0)
    assert (found == started) is same


KEYS = np.array([2.0, 6.0, 13.0, 19.0, 30.0])


def keyed_case(keys: np.ndarray | None, *, noise: float = 0.0) -> SimpleNamespace:
    """Return a push out of a hold between keys at 6 and 13, up 0.4 m by 19; the lowest sample is the first held one."""
    frames = np.arange(0.0, 31.0)
    heights = np.interp(frames, [0.0, 2.0, 6.0, 13.0, 19.0, 25.0, 30.0], [1.0, 1.0, 0.6, 0.6, 1.0, 1.4, 1.0])
    poses = SimpleNamespace(frames=frames, heights=heights, noise=noise)
    return SimpleNamespace(poses=poses, keys=keys, turn=Turn(6, 25, 30), fps=24.0, step=1)


@pytest.mark.parametrize(
    ("frame", "error", "on_key"),
    [
        # Two frames of film to either side of the key at 13, the last of the hold; farther as far as the reading may be
        # off.
        (13.0, 0.1, True), (14.9, 0.1, True), (11.1, 0.1, True), (15.2, 0.1, False), (15.2, 1.2, True),
    ],
)  # fmt: skip
def test_a_crouch_that_is_keyed_lies_on_its_key(frame: float, error: float, on_key: bool) -> None:
    read = Bottom(frame, error, 0.61, True, False, along=0.2)
    found = _on_key(keyed_case(KEYS), read, Event(19.0, 0.0, 1.0))
    assert found == (Bottom(13.0, 1 / math.sqrt(12), 0.6, True, False) if on_key else read)


@pytest.mark.parametrize(
    "case",
    [keyed_case(None), keyed_case(KEYS, noise=1e-3), keyed_case(np.array([2.0, 16.0, 19.0, 30.0]))],
    ids=["keys that trace", "measured", "no key at the bottom"],
)
def test_a_crouch_without_a_key_of_its_own_stays_where_it_is_read(case: SimpleNamespace) -> None:
    read = Bottom(13.5, 0.3, 0.6, True, False)
    assert _on_key(case, read, Event(19.0, 0.0, 1.0)) == read


@pytest.mark.parametrize(("air", "is_flight"), [(1.6, False), (2.4, True), (3.6, True)])
def test_what_is_in_the_air_for_less_than_two_frames_is_one_sample_that_sticks_out(air: float, is_flight: bool) -> None:
    # A hop of 0.3 m out of a dip of 0.1 m, with its top at frame 12.
    z = np.interp(np.arange(25.0), [0, 6, 9, 12, 15, 18, 24], [1.0, 1.0, 0.9, 1.2, 0.9, 1.0, 1.0])
    case = only_case(Track("Moss", 24.0, np.arange(25.0), np.column_stack([0 * z, 0 * z, z])))
    contacts = (ContactReading(12.0 + side * air / 2, 0.1, 1.0) for side in (-1, 1))
    assert (built(case, *contacts) is not None) is is_flight


def leapt(ground: float, follows: Followed = Followed.BODY, source: str = "object") -> Track:
    """Return a root that rests, rises by 0.54 m in 8 frames of 24 a second, falls on the arc it came, and rests."""
    air = 0.54 * (1.0 - ((np.arange(33.0) - 16.0) / 8.0) ** 2)
    z = ground + np.maximum(air, 0.0)
    places = np.column_stack((0 * z, 0 * z, z))
    return Track("Brindle", 24.0, np.arange(float(len(z))), places, follows=follows, source=source)


@pytest.mark.parametrize(("track", "is_on_ground"), [
    (leapt(0.0), True), (leapt(0.04), True), (leapt(-0.04), True),
    (leapt(0.2), False),  # a body's own point, or a ledge
    (leapt(0.0, Followed.THING), False),  # a crate has no hips to follow
    (leapt(0.0, Followed.CENTER_OF_MASS), False),
    (leapt(0.0, source="footage"), False),  # over the edge of the picture
])  # fmt: skip
def test_a_root_on_the_ground_shows_neither_crouch_nor_absorb(track: Track, is_on_ground: bool) -> None:
    case = next(one for one in cases_of(track, poses_of(track), None, World(), Limits()) if one.turn.top == 16)
    phases = built(case, ContactReading(8.0, 0.1, 1.0), ContactReading(24.0, 0.1, 1.0))
    assert phases is not None and (phases.unpushed is Unpushed.ON_GROUND) is is_on_ground
    if is_on_ground:
        assert (phases.crouch, phases.absorbed) == (None, None)
    # Where it leaves 0.33 m over the ground, it has been pushed up to there.
    high = built(case, ContactReading(11.0, 0.1, 1.0), ContactReading(24.0, 0.1, 1.0))
    assert high is not None and high.unpushed is not Unpushed.ON_GROUND
