"""The feet of a track, read once: when they are down, and the gaps with none down."""

from dataclasses import replace
from time import process_time

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.feet import feet_of
from leapwright.analysis.measures.contact import measure_contact
from leapwright.analysis.phases import Phases

from tests.analysis.closed_form import Leap
from tests.analysis.shod import LIFT, shod


@pytest.mark.parametrize("crouch_at", [15.0, 15.3, 15.75])
@pytest.mark.parametrize("fps", [24.0, 60.0])
def test_feet_leave_and_touch_between_the_frames(crouch_at: float, fps: float) -> None:
    # The feet rise as LIFT sin(π u). Near the ground this is a straight line but for the third power, under 0.1 frame
    # here.
    track, phases = shod(leap=Leap(crouch_at=crouch_at, fps=fps))
    (gap,) = feet_of(track).gaps()
    assert gap.takeoff == pytest.approx(phases.takeoff.frame, abs=0.1)
    assert gap.landing == pytest.approx(phases.landing.frame, abs=0.1)
    assert 0.0 < gap.takeoff_error < 0.5 and 0.0 < gap.landing_error < 0.5


def test_each_foot_has_its_own_spans() -> None:
    track, phases = shod()
    down = feet_of(track).down
    assert down.shape == (len(track.frames), 2)
    air = (track.frames > phases.takeoff.frame) & (track.frames < phases.landing.frame)
    assert (down == ~air[:, None]).mean() > 0.95


def test_a_ledge_lower_than_the_takeoff_is_ground_too() -> None:
    track, phases = shod(leap=Leap(lower=0.4))
    (gap,) = feet_of(track).gaps()
    assert gap.landing == pytest.approx(phases.landing.frame, abs=0.05)


def test_the_top_of_a_flight_is_no_ground() -> None:
    # A foot that falls with 1 m/s² stays within 2 cm of its top for 0.4 s: 2 √(2 · 0.02 / 1).
    track, phases = shod(leap=Leap(gravity=1.0, height=0.8, absorb=0.5))
    (gap,) = feet_of(track).gaps()
    assert gap.landing - gap.takeoff == pytest.approx(phases.landing.frame - phases.takeoff.frame, abs=0.05)


def test_on_twos_a_contact_lies_on_a_pose() -> None:
    frames = np.arange(1, 41)
    pose = (frames - 1) // 2 * 2 + 1
    z = np.where((pose > 15) & (pose < 27), LIFT, 0.0)
    feet = np.stack((0.0 * z, 0.0 * z, z), axis=1)[:, None]
    track = Track("twos", 24, frames, np.stack((0 * z, 0 * z, 1 + z), axis=1), feet=feet)
    (gap,) = feet_of(track, step=2, held=True).gaps()
    assert (gap.takeoff, gap.landing) == (15.0, 27.0)


def test_feet_in_the_air_at_the_ends_leave_an_end_open() -> None:
    track, phases = shod()
    keep = (track.frames > phases.takeoff.frame + 2)
    cut = Track("cut", 24, track.frames[keep], track.positions[keep], feet=track.feet[keep])
    (gap,) = feet_of(cut).gaps()
    assert gap.takeoff is None
    assert gap.landing == pytest.approx(phases.landing.frame, abs=0.1)


@pytest.mark.parametrize("lift", [0.05, 0.1, 0.2, 0.5])
@pytest.mark.parametrize("frames_up", [3, 5, 8])
def test_a_drawn_foot_that_eases_out_of_its_key_is_read_within_its_error(lift: float, frames_up: int) -> None:
    # Flat handles from the key at 20: 3 u² - 2 u³, the host's own curve for handles of a third.
    frames = np.arange(1.0, 61.0)
    up, down = (np.clip(way, 0.0, 1.0) for way in ((frames - 20) / frames_up, (40 - frames) / frames_up))
    z = lift * (3 * up**2 - 2 * up**3) * (3 * down**2 - 2 * down**3)
    feet = np.stack((0 * z, 0 * z, z), axis=1)[:, None]
    track = Track("eased", 24, frames, np.stack((0 * z, 0 * z, 1 + z), axis=1), feet=feet)
    (gap,) = feet_of(track).gaps()
    assert abs(gap.takeoff - 20.0) <= min(0.6, 2.5 * gap.takeoff_error)
    assert abs(gap.landing - 40.0) <= min(0.6, 2.5 * gap.landing_error)


def test_a_gap_is_asked_for_by_the_frames_it_shares_with_a_stretch() -> None:
    track, phases = shod()
    feet = feet_of(track)
    (gap,) = feet.gaps()
    assert feet.gap_over(1, 5) is None
    off, on = phases.takeoff.frame, phases.landing.frame
    # A stretch that begins as long before the takeoff as the flight lasts: half of it is in the air.
    assert feet.gap_over(off - (on - off), on) == gap
    assert gap.shared(off - (on - off), on) == pytest.approx(on - off, abs=0.02 * 2 * (on - off))


def test_feet_that_are_never_still_say_nothing() -> None:
    track, _ = shod()
    rising = track.feet + track.frames[:, None, None] * [0.0, 0.0, 1.0]
    assert feet_of(replace(track, feet=rising)) is None


def test_feet_may_be_known_for_some_frames_only() -> None:
    track, phases = shod()
    whole = feet_of(track)
    near = (track.frames >= phases.takeoff.frame - 15) & (track.frames <= phases.landing.frame + 15)
    part = feet_of(replace(track, feet=np.where(near[:, None, None], track.feet, np.nan)))
    assert part.gaps() == whole.gaps()
    assert measure_contact(track, phases, part) == measure_contact(track, phases, whole)
    assert part.knows(phases.takeoff.frame, phases.landing.frame)
    assert not part.knows(track.frames[0], phases.landing.frame)
    assert not part.knows(track.frames[0], track.frames[0] + 2), "nobody looked"


def test_what_lies_between_two_stretches_that_are_known_is_no_gap() -> None:
    track, phases = shod()
    air = (track.frames > phases.takeoff.frame + 2) & (track.frames < phases.landing.frame - 2)
    feet = feet_of(replace(track, feet=np.where(air[:, None, None], np.nan, track.feet)))
    assert [(gap.takeoff is None, gap.landing is None) for gap in feet.gaps()] == [(False, True), (True, False)]


def hopping(count: int) -> Track:
    """Return so many jumps in a row, with feet."""
    track, _ = shod()
    n = len(track.frames)
    frames = np.arange(count * n)
    return Track("hops", 24, frames, np.tile(track.positions, (count, 1)), feet=np.tile(track.feet, (count, 1, 1)))


def test_the_cost_of_feet_grows_with_the_jumps_and_no_faster() -> None:
    # 80 jumps are compared with 8 times 10 jumps, since a busy machine slows both alike; an eighth is left for the
    # clock. The quickest of several turns counts, since other work can only slow a run.
    one_track, one = shod()
    tracks = {count: hopping(count) for count in (10, 80)}

    def seconds(count: int, times: int) -> float:
        n = len(one_track.frames)
        phases = [moved(one, by=row * n - one_track.frames[0]) for row in range(count)]
        began = process_time()
        for _ in range(times):
            feet = feet_of(tracks[count])
            told = [measure_contact(tracks[count], one, feet) for one in phases]
        took = process_time() - began
        assert len(feet.gaps()) == count and all(contact.off is not None for contact in told)
        return took

    took = [(seconds(80, 1), seconds(10, 8)) for _ in range(15)]
    assert min(row[0] for row in took) <= 9.0 / 8.0 * min(row[1] for row in took)


def moved(phases: Phases, *, by: float) -> Phases:
    """Return the same events so many frames later."""
    events = ("crouch", "takeoff", "apex", "landing", "absorbed")
    later = {name: replace(getattr(phases, name), frame=getattr(phases, name).frame + by) for name in events}
    return replace(phases, **later)
