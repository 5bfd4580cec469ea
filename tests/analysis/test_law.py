"""The laws that several rooms share, against motion that is integrated step by step."""

import math

import pytest
from leapwright.analysis.law import rise_in, spring_shape
from scipy.integrate import solve_ivp

G = 9.80665


@pytest.mark.parametrize(("landing", "speed"), [(0.0, 3.0), (-1.3, 2.5), (0.4, 4.0)])
def test_a_flight_of_so_many_seconds_rises_as_the_thrown_body_does(landing: float, speed: float) -> None:
    # Thrown at this speed, integrated until it comes down on the landing's height.
    def met(_t: float, state: list[float]) -> float:
        return state[0] - landing

    met.terminal, met.direction = True, -1.0
    flown = solve_ivp(lambda _t, s: [s[1], -G], (0.0, 5.0), [0.0, speed], events=met, rtol=1e-10, atol=1e-10,
                      max_step=0.01)
    rise = rise_in(float(flown.t_events[0][0]), landing=landing, gravity=G)
    # The highest of its steps lies within 0.005 s of the apex.
    assert 0.0 <= rise - max(flown.y[0]) <= G * 0.005**2 / 2 + 1e-9


def test_a_flight_that_would_land_while_rising_has_no_rise() -> None:
    assert rise_in(0.2, landing=1.0, gravity=G) is None


def test_a_flight_that_falls_as_deep_from_rest_has_no_rise() -> None:
    # g 0.5² / 2 = 1.23 m.
    assert rise_in(0.5, landing=-1.3, gravity=G) is None
    assert rise_in(0.5, landing=-1.2, gravity=G) > 0.0


@pytest.mark.parametrize("ratio", [0.3, 1.0, 3.0, 30.0])
def test_the_release_of_a_spring_has_the_shape_of_the_mass_on_it(ratio: float) -> None:
    # A mass on a spring that it presses down by 1 at rest, under a gravity of 1, let go from C below the spring's end:
    # by energy v² / 2 = C² / 2 - C, so that R = v² / (2 C) = C / 2 - 1.
    deep = 2.0 * (ratio + 1.0)

    def slack(_t: float, state: list[float]) -> float:
        return state[0]

    slack.terminal, slack.direction = True, 1.0
    pushed = solve_ivp(lambda _t, s: [s[1], -s[0] - 1.0], (0.0, 10.0), [-deep, 0.0], events=slack, rtol=1e-10,
                       atol=1e-10)
    seconds, speed = float(pushed.t_events[0][0]), float(pushed.y_events[0][0][1])
    assert speed**2 / (2.0 * deep) == pytest.approx(ratio, rel=1e-6)
    assert spring_shape(ratio) == pytest.approx(seconds * speed / (2.0 * deep), rel=1e-6)


def test_without_weight_it_is_a_quarter_of_pi() -> None:
    assert spring_shape(1e9) == pytest.approx(math.pi / 4, abs=1e-9)
