"""Whole-frame mends: near the exact answer, on the poses' own beat, and honest about what is left."""

from hypothesis import given
from hypothesis import strategies as st
from leapwright.analysis.findings.basis.mending import best_crouch, best_flight

from tests.analysis.closed_form import keyed


def _jump(step: int = 1, takeoff: float = 11):
    return keyed((takeoff - 6, 0.7), (takeoff, 1.0), (takeoff + 8, 1.5), (takeoff + 16, 1.0), step=step)


@given(push=st.floats(1.0, 40.0), step=st.integers(1, 4))
def test_no_other_crouch_on_the_beat_agrees_better(push: float, step: int) -> None:
    jump = _jump(step, takeoff=101)
    _, then = best_crouch(jump, now=jump.push.frames.value, push=push)
    assert (101 - then) % step == 0
    assert then < 101
    off = max((101 - then) / push, push / (101 - then))
    for frames in range(step, 60, step):
        assert off <= max(frames / push, push / frames) * (1 + 1e-12)


@given(airtime=st.floats(4.0, 80.0), step=st.integers(1, 3))
def test_no_other_landing_on_the_beat_comes_nearer(airtime: float, step: int) -> None:
    flight = best_flight(_jump(step), airtime=airtime)
    assert (flight.landing - flight.takeoff) % step == 0
    assert (flight.apex - flight.takeoff) % step == 0
    assert abs(flight.over) <= step / 2 + 0.2 * step
    assert abs(flight.apex - flight.takeoff - flight.airtime / 2) <= step / 2
