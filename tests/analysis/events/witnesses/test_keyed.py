"""The keys as a witness: uneven ones are offered as contacts, each alike; regular ones say nothing."""

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events.witnesses import keyed

from tests.analysis.events.heard import only_case
from tests.truth.worked import Worked


def keyed_jump(keys: list[float]) -> Track:
    track, _ = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)
    return Track("Brindle", 24, track.frames, track.positions, key_frames=keys, interpolation="bezier")


def test_each_key_between_bottom_and_top_may_be_the_contact() -> None:
    track, truth = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)
    bottom, top = round(truth["crouch"]), round(truth["apex"])
    inside = [bottom + 2, bottom + 5, bottom + 6, top - 3]
    first, last = float(track.frames[0]), float(track.frames[-1])
    said = keyed.hear(only_case(keyed_jump([first, bottom, *inside, top, top + 4, top + 7, top + 9, top + 10, last])))
    assert [reading.frame for reading in said.takeoff] == inside
    assert sum(reading.trust for reading in said.takeoff) == pytest.approx(keyed.TRUST)
    assert said.nats == 0.0


@pytest.mark.parametrize("every", [1, 2, 3, 4])
def test_keys_at_a_regular_beat_say_nothing(every: int) -> None:
    frames = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)[0].frames
    assert keyed.hear(only_case(keyed_jump(np.asarray(frames[::every]).tolist()))) is None
