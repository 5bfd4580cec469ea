"""A rise, or a fall, that a thousandth of its error undoes is none: no figure is divided by it."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import World
from leapwright.analysis.jump import measure
from leapwright.analysis.measures import readings as rooms
from leapwright.analysis.measures.landing import measure_absorb
from leapwright.analysis.measures.push import measure_push

from tests.analysis.closed_form import Leap
from tests.analysis.shod import shod


@pytest.mark.parametrize("which", ["up", "down"])
def test_what_may_not_have_risen_or_fallen_has_no_push_or_absorb(which: str) -> None:
    track, phases = shod(leap=Leap(height=0.45, push=0.4))
    flight, read = measure(track, phases, World()).flight, rooms.read_events(track, phases)
    undone = np.array(getattr(read, which))
    undone[-1] = 0.0
    read = replace(read, **{which: undone})
    with np.errstate(all="raise"):
        if which == "up":
            assert measure_push(track, phases, World(), flight=flight, readings=read) is None
        else:
            assert measure_absorb(phases, flight=flight, readings=read) is None
