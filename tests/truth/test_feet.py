"""Feet of a simulated body (MuJoCo): when they leave the ground and touch it, against the engine's own forces.

The truth is the longest stretch without ground force; the feet are read as an animator's are, from heights alone,
once a frame of 24 to 60 a second.
"""

import numpy as np
import pytest
from leapwright.analysis.feet import Gap, feet_of

from .contact_errors import NOISE, by_kind, reads
from .test_simulated import CASES, Case, audited, ran


def gap_of(case: Case) -> tuple[Gap, float, float]:
    """Return the flight as the feet tell it, with the engine's takeoff and landing, frames."""
    run = ran(case.push)
    truth = [run.frame(second, fps=case.fps, phase=case.phase) for second in (run.takeoff, run.landing)]
    gaps = feet_of(run.track(fps=case.fps, phase=case.phase, with_feet=True)).gaps()
    return max(gaps, key=lambda gap: min(gap.landing, truth[1]) - max(gap.takeoff, truth[0])), *truth


@pytest.mark.parametrize("case", CASES)
def test_feet_bracket_the_flight_within_half_a_frame(case: Case) -> None:
    gap, takeoff, landing = gap_of(case)
    assert gap.takeoff == pytest.approx(takeoff, abs=0.5)
    assert gap.landing == pytest.approx(landing, abs=0.5)


@pytest.mark.parametrize("case", CASES)
def test_there_is_one_flight_by_the_feet(case: Case) -> None:
    track = ran(case.push).track(fps=case.fps, phase=case.phase, with_feet=True)
    assert len(feet_of(track).gaps()) == 1


def test_most_are_within_a_third_of_a_frame() -> None:
    # The bar is 0.3 frame at the median, here in frames of each case's own rate.
    found = [gap_of(case) for case in CASES]
    assert np.median([abs(gap.takeoff - takeoff) for gap, takeoff, _ in found]) <= 0.3
    assert np.median([abs(gap.landing - landing) for gap, _, landing in found]) <= 0.3


def test_the_stated_errors_hold_the_engines() -> None:
    # 95 % intervals; 24 ends allow for three misses, and 0.05 frame for the engine's steps of 0.5 ms.
    found = [gap_of(case) for case in CASES]
    held = [abs(gap.takeoff - takeoff) <= 2.0 * gap.takeoff_error + 0.05 for gap, takeoff, _ in found]
    held += [abs(gap.landing - landing) <= 2.0 * gap.landing_error + 0.05 for gap, _, landing in found]
    assert sum(held) >= len(held) - 3, held


@pytest.mark.parametrize("case", CASES)
def test_feet_that_go_with_the_body_are_told_nothing(case: Case) -> None:
    # The engine's ground gives way by centimeters under a landing, so sinking and sliding are not checked.
    codes = {finding.code for finding in audited(case, with_feet=True).findings}
    assert not codes & {"contact-early", "contact-late"}


def test_the_stated_errors_hold_nine_in_ten_at_every_rate_noise_and_step() -> None:
    # Two standard errors are a 95 % interval; of 48 contacts a share of 0.95 is known to 0.031 (binomial), twice.
    runs = tuple(ran(push) for push in dict.fromkeys(case.push for case in CASES))
    found = by_kind(reads(runs, fps=(24.0, 30.0, 60.0)))
    assert len(found) == 3 * (len(NOISE) + 1) + 2 * 2  # a ground given once; poses held for 2 and 3 at 24 and 30 fps
    for kind, rows in found.items():
        assert len(rows) >= 40
        assert np.mean(np.abs(rows[:, 0]) <= 2.0 * rows[:, 1]) >= 0.89, kind
        assert np.median(rows[:, 1]) <= (1.8 if "held" in kind else 0.5), f"{kind}: so wide an error holds anything"
