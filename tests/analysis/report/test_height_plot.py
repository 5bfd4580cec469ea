"""The picture of a jump: the track lies within its frame, the arcs lie where the law puts them."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from leapwright.analysis import Settings, Track
from leapwright.analysis.report.data import shot_data
from leapwright.analysis.report.height_plot import PLOT_HEIGHT, PLOT_WIDTH, height_plot
from leapwright.analysis.shot import Reading, audit_reading

from tests.analysis.day import hop


def jump_of(track, **options):
    audited = audit_reading("a.json", Reading((track,)), Settings(), **options)
    return shot_data(audited)["tracks"][0]["jumps"][0]


def drawn(jump, **options):
    """Return the picture's parts as XML; attributes of one word stand without quotes in HTML."""
    text = height_plot(jump, title="a < b", **options)
    return ElementTree.fromstring(re.sub(r'(?<= )([\w-]+)=([\w-]+)(?=[ />])', r'\1="\2"', text))


def points(part):
    """(n, 2) pixels along a path of M and relative l, or of M and a quadratic Bézier curve (SVG 1.1, 8.3.7)."""
    if "Q" in part.get("d"):
        a, b, c = np.array(re.findall(r"-?\d+", part.get("d")), float).reshape(3, 1, 2)
        t = np.linspace(0.0, 1.0, 101)[:, None]
        return (1 - t) ** 2 * a + 2 * t * (1 - t) * b + t**2 * c
    start, _, steps = part.get("d")[1:].partition("l")
    offsets = np.array(re.findall(r"-?\d+", steps), float).reshape(-1, 2)
    return np.cumsum([np.array(start.split(), float), *offsets], axis=0)


def lines(picture):
    names = ("track", "arc", "real", "past")
    parts = [(part.get("class", "").split(" ")[0], part) for part in picture]
    return {name: points(part) for name, part in parts if name in names}


def test_the_picture_shows_the_track_within_its_frame():
    picture = drawn(jump_of(hop().track))
    track = lines(picture)["track"]
    assert (track >= 0).all() and (track <= [PLOT_WIDTH, PLOT_HEIGHT]).all() and len(track) > 10
    words = [part.text for part in picture if "event" in part.get("class", "").split() and part.text]
    assert words == ["crouch", "takeoff", "apex", "landing", "absorbed"]


def test_the_fitted_arc_lies_on_a_flight_drawn_by_the_law():
    # Constant gravity: the track in the air is the parabola, so both lines pass through the same points.
    found = lines(drawn(jump_of(hop().track)))
    track, arc = found["track"], found["arc"]
    air = track[(track[:, 0] > arc[0, 0]) & (track[:, 0] < arc[-1, 0])]
    assert len(air) >= 5
    assert np.abs(np.interp(air[:, 0], arc[:, 0], arc[:, 1]) - air[:, 1]).max() < 2.0  # each is rounded to a pixel


@pytest.mark.parametrize("lift", [0.0, 1e5, -1e5])
def test_a_jump_without_arc_crouch_or_absorb_is_drawn_too(lift):
    track = hop().track
    track = Track("Moss", 24, track.frames, track.positions + np.array([0, 0, lift]))
    found = lines(drawn({**jump_of(track), "crouch": None, "absorbed": None, "fitted_gravity": None}))
    assert "track" in found and "arc" not in found


def test_the_arc_in_real_time_is_drawn_where_the_flight_floats():
    # Hand-worked: at 24 fps a rise of h under g takes sqrt(2 h / g) * 24 frames.
    found = lines(drawn(jump_of(hop().track, gravity=4 * 9.80665)))
    wide, narrow = (found[name][-1, 0] - found[name][0, 0] for name in ("arc", "real"))
    # Four times the gravity, half the time; all ends are rounded to a pixel.
    assert narrow == pytest.approx(0.5 * wide, abs=1.0)
    assert "real" not in lines(drawn(jump_of(hop().track)))


def test_held_poses_are_drawn_as_stairs():
    picture = drawn({**jump_of(hop().track), "held": True})
    line = next(part for part in picture if part.get("class", "").startswith("track")).get("d")
    assert "H" in line and "V" in line and "l" not in line


def test_an_earlier_take_is_drawn_behind_with_takeoff_on_takeoff():
    jump = jump_of(hop().track)
    track = hop().track
    moved = replace(track, frames=track.frames + 40, positions=track.positions + np.array([0, 0, 2.0]))
    found = lines(drawn(jump, earlier=jump_of(moved)))
    assert np.abs(found["past"] - found["track"]).max() <= 1.0


def test_the_words_of_takeoff_and_apex_do_not_lie_on_one_another_where_a_fall_begins():
    jump = jump_of(hop().track)
    fall = {**jump, "takeoff": jump["apex"]}
    sides = {}
    for kind, of in (("jump", jump), ("fall", fall)):
        words = [part for part in drawn(of) if "event" in part.get("class", "") and part.text]
        sides[kind] = {part.text: part.get("class") for part in words}
    assert (sides["fall"]["takeoff"], sides["fall"]["apex"]) == ("event e", "event")
    assert sides["jump"]["apex"] == "event m"
