"""Labels in the viewport stand beside their places, and under each other where those lie close."""

import numpy as np
from leapwright.addon.overlay.geometry import Kind, Label
from leapwright.addon.overlay.viewport import LINE, label_place
from mathutils import Vector

WIDE = 60.0


def placed(name, at, taken):
    x, y = label_place(Label(Kind.EVENT, name, np.zeros(3), 1.0), Vector(at), WIDE, LINE, taken, 1.0)
    taken.append((x, y, x + WIDE, y + LINE))
    return x, y


def test_an_event_is_named_right_of_its_place_and_the_apex_over_it():
    x, y = placed("takeoff", (100.0, 50.0), [])
    assert 100.0 < x < 120.0 and y < 50.0 < y + LINE
    x, y = placed("apex", (100.0, 50.0), [])
    assert x < 100.0 < x + WIDE and y > 50.0


def test_of_two_events_close_together_each_has_a_line_of_its_own():
    taken = []
    _, first = placed("landing", (100.0, 50.0), taken)
    _, second = placed("absorbed", (110.0, 44.0), taken)
    assert second + LINE <= first
