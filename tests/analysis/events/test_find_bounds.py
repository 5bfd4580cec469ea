"""From which probability find shows a jump, and when it notes another unit, axis or world.

The bounds are ours; each is held from both sides.
"""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World
from leapwright.analysis.events import find
from leapwright.analysis.events.testimony import ContactReading, Testimony
from leapwright.analysis.events.weights import WEIGHTS
from leapwright.analysis.events.witnesses import parabola
from leapwright.analysis.notes import Said

from tests.analysis.closed_form import Leap, build
from tests.analysis.events.heard import only_case


def heard(monkeypatch, probability, track):
    """Return what is found and noted when all witnesses together give this probability."""
    nats = float(np.log(probability / (1.0 - probability))) - WEIGHTS["belief"].at(1.0)
    monkeypatch.setattr(find, "WITNESSES", (lambda case: replace(parabola.hear(case), nats=nats),))
    return find.find_phases(track, World(), Limits())


@pytest.mark.parametrize(("probability", "count"), [(0.13, 0), (0.17, 1)])
def test_a_jump_is_shown_from_a_probability_of_fifteen_percent_on(monkeypatch, probability, count):
    track, _ = build(Leap())
    found = heard(monkeypatch, probability, track)
    assert len(found.phases) == count
    assert (Said.NEAREST in {note.said for note in found.notes}) is (count == 0)


@pytest.mark.parametrize(("probability", "axes"), [(0.93, []), (0.96, ["y"])])
def test_another_axis_may_be_up_where_a_jump_along_it_is_sure(monkeypatch, probability, axes):
    track, _ = build(Leap())
    turned = Track("Brindle", track.fps, track.frames, track.positions[:, [0, 2, 1]])
    found = heard(monkeypatch, probability, turned)
    assert [note.values["axis"] for note in found.notes if note.said is Said.SIDEWAYS] == axes


@pytest.mark.parametrize(("rise", "across", "is_said"), [(25.0, 0.0, False), (36.0, 0.0, True), (0.0, 80.0, False),
                                                         (0.0, 120.0, True)])  # fmt: skip
def test_thirty_meters_up_or_a_hundred_a_second_are_too_much(rise, across, is_said):
    """A second at 24 frames a second; across: meters in it, at an even speed."""
    frames = np.arange(25.0)
    places = np.stack((across * frames / 24, 0 * frames, rise * frames / 24), axis=1)
    assert bool(find._of_lengths(Track("crate", 24, frames, places))) is is_said


@pytest.mark.parametrize(("times", "is_said"), [(3.3, False), (5.0, True), (1 / 3.3, False), (1 / 5.0, True)])
def test_flights_four_times_as_heavy_or_as_light_are_of_another_world(times, is_said):
    track, _ = build(Leap())
    world = World(gravity=9.80665)
    (phases,) = find.find_phases(track, world, Limits()).phases
    weighty = replace(phases, arc=replace(phases.arc, gravity=times * world.gravity))
    assert bool(find._of_gravity([weighty], world)) is is_said


@pytest.mark.parametrize(("share", "is_cut"), [(0.4, False), (0.6, True)])
def test_a_track_that_begins_at_over_half_its_speed_begins_in_the_midst(share, is_cut):
    """Return a case that rises to its top at frame 20, its first step a share of the fastest, then sinks to rest."""
    steps = np.concatenate(([share], np.ones(10), np.linspace(1.0, -1.0, 19)[1:-1], -np.ones(10), [-0.02] * 12))
    z = 1.0 + 0.05 * np.concatenate(([0.0], np.cumsum(steps)))
    track = Track("crate", 24, np.arange(len(z)), np.stack((0 * z, 0 * z, z), axis=1))
    assert only_case(track).rising.is_cut is is_cut


@pytest.mark.parametrize("end", ["takeoff", "landing"])
def test_a_contact_less_than_a_smallest_hop_under_the_top_counts_only_where_there_is_no_other(end):
    # The way is passed 5 cm under the top at the square root of 2 · 0.05 / g seconds from the apex; the leap is higher.
    track, events = build(Leap())
    apex, sign = events.apex.frame, -1.0 if end == "takeoff" else 1.0
    hop = sign * np.sqrt(2.0 * 0.05 / World().gravity) * track.fps
    near, far = (ContactReading(apex + share * hop, 0.5, 0.9) for share in (0.9, 1.2))
    accounts = [Testimony(0.0, **{end: (one,)}) for one in (near, far)]
    contact = find._contact(only_case(track), accounts, end)
    assert contact is not None and contact.frame == far.frame
    lone = find._contact(only_case(track), accounts[:1], end)
    assert lone is not None and lone.frame == near.frame
