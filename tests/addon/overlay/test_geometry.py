"""What is drawn of a jump lies where the law of free fall, worked by hand, puts it."""

import numpy as np
import pytest
from leapwright.addon.overlay.geometry import (
    DRAWN_BESIDE_FRAMES,
    Kind,
    dashed,
    drawing_of,
    event_labels,
    fitted_flight,
    heading_of,
    real_airtime,
    real_flight,
)

from tests.addon.overlay import flown
from tests.addon.overlay.flown import AIRTIME, FPS, LANDING, PUSH, RISE, TAKEOFF, jump, place, track


def test_real_time_takes_the_seconds_that_the_heights_ask_for_however_long_the_flight_is_drawn():
    # 2 v / g, from v² = 2 g h.
    assert real_airtime(jump()) == pytest.approx(AIRTIME)
    assert real_airtime(jump(slower=2.0)) == pytest.approx(AIRTIME)


def test_the_flight_of_real_time_has_a_dot_a_frame_where_the_body_would_be():
    for slower in (1.0, 2.0):
        pieces, dots = real_flight(track(slower), jump(slower))
        assert len(dots) == 15  # frames 0 to 14 of 14.68
        np.testing.assert_allclose(dots, [place(TAKEOFF + n) for n in range(15)], atol=1e-3)
        np.testing.assert_allclose(dots[:, 2], [place(TAKEOFF + n)[2] for n in range(15)], atol=1e-9)
        assert pieces[0, 0] == pytest.approx(dots[0]) and pieces[-1, 1, 2] == pytest.approx(1.0)


def test_the_dots_of_a_believable_flight_lie_in_the_rings_of_real_time():
    drawing = drawing_of(track(), [jump()], 0)
    drawn = {tuple(dot.round(6)) for dot in drawing.dots[Kind.TRACK]}
    _, rings = real_flight(track(), jump())
    apart = [min(np.linalg.norm(np.array(dot) - ring) for dot in drawn) for ring in rings]
    assert max(apart) < 1e-3


def test_a_fitted_flight_runs_from_takeoff_to_landing_over_the_apex():
    pieces = fitted_flight(track(), jump())
    assert pieces[0, 0] == pytest.approx(place(TAKEOFF))
    assert pieces[-1, 1] == pytest.approx(place(LANDING), abs=1e-3)
    assert pieces[:, :, 2].max() == pytest.approx(1.0 + RISE, abs=1e-3)


def test_the_events_are_named_with_their_frames():
    labels = {label.name: label for label in event_labels(track(), jump())}
    assert list(labels) == ["crouch", "takeoff", "apex", "landing"]
    assert labels["takeoff"].value == TAKEOFF and labels["takeoff"].place == pytest.approx(place(TAKEOFF))


def test_the_brackets_span_push_distance_and_jump_height():
    drawing = drawing_of(track(), [jump()], 0)
    for kind, low, high in ((Kind.PUSH, 1.0 - PUSH, 1.0), (Kind.HEIGHT, 1.0, 1.0 + RISE)):
        upright = drawing.lines[kind][0]
        assert sorted(upright[:, 2]) == pytest.approx([low, high])
        assert upright[0, 0] == upright[1, 0] < 0.0  # behind the takeoff
    said = {label.name: label.value for label in drawing.labels}
    assert said["push"] == pytest.approx(PUSH) and said["height"] == pytest.approx(RISE)
    assert said["ratio"] == pytest.approx(RISE / PUSH)


def test_a_fall_off_a_ledge_has_no_push_to_bracket():
    drawing = drawing_of(track(), [jump(crouch=False)], 0)
    assert Kind.PUSH not in drawing.lines and Kind.HEIGHT in drawing.lines


def test_a_jump_on_the_spot_has_its_brackets_beside_it():
    still = track()
    upright = type(still)("up", FPS, still.frames, still.positions * (0.0, 0.0, 1.0))
    assert heading_of(upright, jump()) == pytest.approx([1.0, 0.0, 0.0])
    assert heading_of(track(), jump()) == pytest.approx([1.0, 0.0, 0.0])


def test_only_the_chosen_jump_has_labels_and_a_finding_is_drawn_on_its_frames():
    assert drawing_of(track(), [jump()], None).labels == ()
    drawing = drawing_of(track(), [jump()], 0, finding=flown.FINDING)
    marked = drawing.lines[Kind.FINDING]
    assert len(marked) == 4  # frames 24 to 28
    assert marked[0, 0] == pytest.approx(place(24.0)) and marked[-1, 1] == pytest.approx(place(28.0))


def test_the_path_is_drawn_from_a_little_before_the_crouch_to_a_little_after_the_jump():
    dots = drawing_of(track(), [jump()], 0).dots[Kind.TRACK]
    assert len(dots) == (36 + DRAWN_BESIDE_FRAMES) - (15 - DRAWN_BESIDE_FRAMES) + 1  # landing at 35.7, crouch at 15


def test_a_mend_is_a_dashed_ghost_and_what_was_before_another():
    drawing = drawing_of(track(2.0), [jump(2.0)], 0, ghost=track(), before=track(1.5))
    assert {Kind.GHOST, Kind.BEFORE} <= drawing.lines.keys() & drawing.dots.keys()
    assert len(dashed(np.zeros((8, 2, 3)))) == 4


def test_a_drawing_is_taken_into_a_scene_that_lies_on_its_side_and_counts_centimeters():
    # Gravity along +x: up is −x, which is z of the track.
    turn = np.array([[0.0, 0.0, 1.0], [0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]])
    there = drawing_of(track(), [jump()], 0).placed(turn, 0.01)
    label = next(label for label in there.labels if label.name == "takeoff")
    assert label.place == pytest.approx([-100.0, 0.0, 0.0])
