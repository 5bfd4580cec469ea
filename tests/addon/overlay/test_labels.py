"""Labels in the viewport stand beside their places, and under each other where those lie close."""

import math

import numpy as np
import pytest
from leapwright.addon.overlay.geometry import Kind, Label
from leapwright.addon.overlay.viewport import (
    LABEL_LINE,
    MOST_LINES_UNDER,
    label_place,
    labels_in_order,
    runs_across,
    upright_seen,
)
from mathutils import Euler, Vector

WIDE = 60.0


def placed(name, at, taken, over=False):
    label = Label(Kind.EVENT, name, np.zeros(3), 1.0)
    x, y = label_place(label, Vector(at), WIDE, LABEL_LINE, taken, 1.0, over=over or name == "apex")
    taken.append((x, y, x + WIDE, y + LABEL_LINE))
    return x, y


def test_an_event_is_named_right_of_its_place_and_the_apex_over_it():
    x, y = placed("takeoff", (100.0, 50.0), [])
    assert 100.0 < x < 120.0 and y < 50.0 < y + LABEL_LINE
    x, y = placed("apex", (100.0, 50.0), [])
    assert x < 100.0 < x + WIDE and y > 50.0


def test_of_two_events_close_together_each_has_a_line_of_its_own():
    taken = []
    _, first = placed("landing", (100.0, 50.0), taken)
    _, second = placed("absorbed", (110.0, 44.0), taken)
    assert second + LABEL_LINE <= first


def test_from_above_events_of_a_path_across_are_named_over_it_each_in_a_line_of_its_own():
    taken = []
    _, first = placed("takeoff", (100.0, 50.0), taken, over=True)
    _, second = placed("crouch", (90.0, 50.0), taken, over=True)
    assert first > 50.0 and second >= first + LABEL_LINE


def test_a_path_runs_across_where_its_places_are_further_apart_sideways_than_up():
    assert runs_across([Vector((0.0, 0.0)), Vector((30.0, 20.0))])
    assert not runs_across([Vector((0.0, 0.0)), Vector((20.0, 30.0))])
    assert not runs_across([])


def test_where_too_many_are_at_one_place_the_last_ones_are_left_out():
    taken = []
    for _ in range(MOST_LINES_UNDER + 1):
        placed("landing", (100.0, 50.0), taken)
    label = Label(Kind.EVENT, "absorbed", np.zeros(3), 1.0)
    assert label_place(label, Vector((100.0, 50.0)), WIDE, LABEL_LINE, taken, 1.0, over=False) is None


def test_takeoff_and_landing_come_first_and_heights_are_written_from_the_side_alone():
    labels = [Label(Kind.EVENT, name, np.zeros(3), 1.0) for name in ("crouch", "takeoff", "apex", "landing", "ratio")]
    assert [label.name for label in labels_in_order(labels, 1.0)] == ["takeoff", "landing", "apex", "crouch", "ratio"]
    assert [label.name for label in labels_in_order(labels, 0.1)] == ["takeoff", "landing", "apex", "crouch"]


@pytest.mark.parametrize("degrees", (0.0, 10.0, 45.0, 90.0))
def test_from_straight_above_nothing_upright_is_seen_and_from_the_side_all(degrees):
    """A view matrix undoes the camera's turn: tilted by so much from looking down, it sees the sine of that."""
    turn = Euler((math.radians(degrees), 0.0, 0.7)).to_matrix().inverted()
    assert upright_seen(turn) == pytest.approx(math.sin(math.radians(degrees)), abs=1e-6)
