"""The page of the day: whole in itself, readable without sight, nothing in it that runs."""

from dataclasses import replace
from html.parser import HTMLParser
from xml.etree import ElementTree

import numpy as np
import pytest
from leapwright.analysis import Settings, Track
from leapwright.analysis.report.chart import HEIGHT, WIDTH, jump_chart
from leapwright.analysis.report.dailies import as_page
from leapwright.analysis.shot import Reading, Shot, audit_reading

from tests.analysis.day import FLOATY, hop, pinned, shot

EVIL = '<script>alert("tq")</script>'
EMPTY_TAGS = {"meta", "br", "path", "rect", "circle"}


class Page(HTMLParser):
    """What a page is made of; every tag must be closed in its turn."""

    def __init__(self, text):
        super().__init__()
        self.open, self.tags, self.words = [], [], []
        self.feed(text)
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in EMPTY_TAGS:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.words.append(data)


def page(*shots):
    return Page(as_page(shots, version="0.1.0"))


def test_every_jump_has_a_picture_with_words_for_it_and_a_table_of_figures():
    of_shot = shot(found=(FLOATY,))
    made = page(of_shot, shot("tq020.json", seed=2))
    pictures = [attributes for tag, attributes in made.tags if tag == "svg"]
    assert len(pictures) == 2 and all(picture["role"] == "img" for picture in pictures)
    assert pictures[0]["aria-label"].startswith("tq010_barge_hop, jump 1: takeoff at frame ")
    text = " ".join(made.words)
    assert "Move the landing key from 30 to 24" in text and "fitted gravity" in text


def test_an_event_pinned_by_hand_says_so_in_place_of_an_error():
    words = page(pinned(shot(), takeoff=21.0)).words
    assert [word for word in words if "pinned" in word] == ["21 pinned by hand"]
    assert not [word for word in page(shot()).words if "pinned" in word]


def test_every_shot_is_linked_from_the_head_of_the_page():
    made = page(shot(), Shot("gone.blend", "there is no such file"))
    links = [attributes["href"] for tag, attributes in made.tags if tag == "a"]
    places = ["#" + attributes["id"] for tag, attributes in made.tags if tag == "section"]
    assert links == places and len(links) == 2
    assert "Unreadable: there is no such file" in made.words


def test_nothing_on_the_page_runs_or_is_fetched():
    bad = replace(FLOATY, template=EVIL, mend_template=EVIL)
    of_shot = shot(f"{EVIL}.json", found=(bad,))
    audits = (replace(of_shot.audits[0], name=EVIL, notes=(EVIL,)),)
    made = page(replace(of_shot, audits=audits, reasons=(EVIL,), notes=(EVIL,)), Shot("x.json", EVIL))
    assert not {tag for tag, _ in made.tags} & {"script", "link", "img", "iframe", "object"}
    assert not [name for _, attributes in made.tags for name in attributes if name.startswith("on")]
    assert not [attributes for _, attributes in made.tags if "src" in attributes]


def test_the_page_says_its_language_its_charset_and_what_it_is_not_for():
    made = page(shot())
    tags = dict(reversed(made.tags))
    assert tags["html"]["lang"] == "en"
    assert ("meta", {"charset": "utf-8"}) in made.tags
    assert "not for training, medical or safety" in " ".join("".join(made.words).split())
    headers = [attributes.get("scope") for tag, attributes in made.tags if tag == "th"]
    assert headers and set(headers) <= {"col", "row"}


def test_the_picture_shows_the_track_within_its_frame():
    of_shot = shot()
    jump = of_shot.audits[0].jumps[0]
    picture = ElementTree.fromstring(jump_chart(of_shot.tracks[0], jump, title="a < b"))
    line = next(part for part in picture if part.get("class") == "track").get("d")
    points = np.array([point.split() for point in line[1:].split("L")], float)
    assert (points >= 0).all() and (points <= [WIDTH, HEIGHT]).all()
    words = [part.text for part in picture if part.get("class") == "event" and part.text]
    assert words == ["crouch", "takeoff", "apex", "landing", "absorbed"]


def test_the_fitted_arc_lies_on_a_flight_drawn_by_the_law():
    # Constant gravity: the track in the air is the parabola, so both lines pass through the same points.
    of_shot = shot()
    jump = of_shot.audits[0].jumps[0]
    picture = ElementTree.fromstring(jump_chart(of_shot.tracks[0], jump, title="hop"))
    lines = {
        part.get("class"): np.array([point.split() for point in part.get("d")[1:].split("L")], float)
        for part in picture
        if part.get("class") in ("track", "arc")
    }
    track, arc = lines["track"], lines["arc"]
    air = track[(track[:, 0] > arc[0, 0]) & (track[:, 0] < arc[-1, 0])]
    assert len(air) >= 5
    assert np.abs(np.interp(air[:, 0], arc[:, 0], arc[:, 1]) - air[:, 1]).max() < 1.0


@pytest.mark.parametrize("lift", [0.0, 1e5, -1e5])
def test_a_jump_without_arc_crouch_or_absorb_is_drawn_too(lift):
    track = hop().track
    track = Track("Moss", 24, track.frames, track.positions + np.array([0, 0, lift]))
    audited = audit_reading("a.json", Reading((track,)), Settings())
    jump = replace(audited.audits[0].jumps[0], crouch=None, absorbed=None, fitted_gravity=None)
    ElementTree.fromstring(jump_chart(track, jump, title="Moss"))


def test_ten_jumps_take_little_room():
    one, ten = len(as_page([shot()], version="0")), len(as_page([shot()] * 10, version="0"))
    assert (ten - one) / 9 < 12_000


def test_the_arc_under_the_shots_own_gravity_is_drawn_where_the_flight_floats():
    # Hand-worked: at 24 fps a rise of h under g takes sqrt(2 h / g) * 24 frames.
    track = hop().track
    audited = audit_reading("a.json", Reading((track,)), Settings(), gravity=4 * 9.80665)
    jump = audited.audits[0].jumps[0]
    picture = ElementTree.fromstring(jump_chart(track, jump, title="hop"))
    ends = {
        part.get("class"): [float(point.split()[0]) for point in part.get("d")[1:].split("L")]
        for part in picture
        if part.get("class") in ("arc", "real")
    }
    wide, narrow = (line[-1] - line[0] for line in (ends["arc"], ends["real"]))
    assert narrow / wide == pytest.approx(0.5, abs=0.02)  # four times the gravity, half the time
    plain = audit_reading("a.json", Reading((track,)), Settings()).audits[0].jumps[0]
    assert 'class="real"' not in jump_chart(track, plain, title="hop")


def test_held_poses_are_drawn_as_steps():
    track = hop().track
    held = Track("Moss", 24, track.frames, np.repeat(track.positions[::2], 2, axis=0)[: len(track.frames)])
    jump = replace(audit_reading("a.json", Reading((track,)), Settings()).audits[0].jumps[0], held=True)
    picture = ElementTree.fromstring(jump_chart(held, jump, title="Moss"))
    line = next(part for part in picture if part.get("class") == "track").get("d")
    assert "H" in line and "V" in line and "L" not in line


def test_the_words_of_takeoff_and_apex_do_not_lie_on_one_another_where_a_fall_begins():
    track = hop().track
    jump = audit_reading("a.json", Reading((track,)), Settings()).audits[0].jumps[0]
    fall = replace(jump, takeoff=jump.apex)
    sides = {}
    for drawn in (jump, fall):
        picture = ElementTree.fromstring(jump_chart(track, drawn, title="Moss"))
        sides[drawn is fall] = {part.text: part.get("text-anchor") for part in picture if part.get("class") == "event"}
    assert (sides[True]["takeoff"], sides[True]["apex"]) == ("end", "start")
    assert sides[False]["apex"] == "middle"


def test_the_head_of_the_page_names_the_gravest_finding():
    made = page(shot(found=(replace(FLOATY, code="arc-hang", severity="note"), replace(FLOATY, severity="fix"))))
    assert "".join(made.words).count("fix air-floaty and 1 more") == 1
