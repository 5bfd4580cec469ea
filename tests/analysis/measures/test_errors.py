"""The stated errors against Monte Carlo: events put off by known errors, heights read as a fit reads them.

Each figure's error must be what its values scatter by. Truth is the closed-form jump; nothing here uses the
formulas of the errors.
"""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Jump, World
from leapwright.analysis.figures import error_of, value_of
from leapwright.analysis.jump import measure
from leapwright.analysis.phases import Event

from tests.analysis.closed_form import Leap, build, eased, fitted, measured

TRIES = 120
OFF = 0.2
"""Standard error, in frames, by which each event is displaced."""
TIMED = ("push_frames", "push_frames_expected", "push_excess", "push_distance", "push_ratio", "push_pace")
TIMED += ("agreement", "push_shape", "jump_height", "drop_height", "airtime_frames", "rise_frames", "distance")
TIMED += ("absorb_frames", "absorb_excess", "absorb_ratio", "absorb_distance", "absorb_frames_expected")
NOISY = ("fitted_gravity", "air_pace", "top_quarter_share", "apex_skew", "travel_speed", "travel_spread", "travel_turn")


def read(leap: Leap, seed: int) -> Jump:
    """Return the jump with each event displaced by a normal error, and at the height that its own fit gives there."""
    track, phases = build(replace(leap, seed=seed))
    off = np.random.default_rng(10_000 + seed).normal(0.0, OFF, 5)
    crouch, takeoff, apex, landing, absorbed = leap.events()
    arc = fitted(track, takeoff + max(off[1], 0.0), landing + min(off[3], 0.0))
    before = (track.frames <= crouch) & (track.frames > crouch - 4)
    after = (track.frames >= absorbed) & (track.frames < absorbed + 4)
    part = max(off[0] / (takeoff - crouch), 0.0)
    sunk = max(-off[4] / (absorbed - landing), 0.0)

    def at(frame: float) -> float:
        return float(arc.heights(frame, leap.fps))

    def event(frame: float, height: float) -> Event:
        return Event(frame, OFF, height)

    phases = replace(
        phases,
        crouch=event(crouch + off[0], track.heights[before].mean() + leap.push * float(leap.shape(part))),
        takeoff=event(takeoff + off[1], at(takeoff + off[1])),
        apex=event(apex + off[2], arc.apex_height),
        landing=event(landing + off[3], at(landing + off[3])),
        absorbed=event(absorbed + off[4], track.heights[after].mean() + leap.absorb * sunk**2),
        arc=arc,
    )
    return measure(track, phases, World())


@pytest.mark.parametrize("fps", [24.0, 60.0])
@pytest.mark.parametrize("noise", [0.0, 0.0015, 0.005])
@pytest.mark.parametrize(("k", "ratio"), [(0.5, 0.5), (0.5, 4.0), (1.0, 1.0), (1.0, 2.0), (2.0, 0.5), (2.0, 4.0)])
def test_each_error_is_what_its_figure_scatters_by(k: float, ratio: float, noise: float, fps: float) -> None:
    leap = Leap(height=0.5, push=0.5 / ratio, noise=noise, fps=fps, **eased(k))
    true = measured(replace(leap, noise=0.0))
    jumps = [read(leap, seed) for seed in range(TRIES)]
    for name in TIMED + NOISY * (noise > 0.0):
        values = np.array([value_of(jump, name) for jump in jumps])
        said = np.median([error_of(jump, name) for jump in jumps])
        # The median of a normal error's size is 0.6745 of its deviation; far misses, where the error is no longer
        # linear, hardly move a median. So many tries know it to 11 %: three of those either way.
        seen = np.median(np.abs(values - value_of(true, name))) / 0.6745
        assert 0.7 <= said / seen <= 1.4, (name, said / seen)
