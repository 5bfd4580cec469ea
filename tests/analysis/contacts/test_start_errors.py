"""How the spread of a start is corrected: at the knots of the table, between them, beyond them; and what for."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis.contacts.start_errors import FACTORS, NOISY_SHARE, THROUGH, factor

from tests.bench.start_errors import Start, score, table


def test_the_factor_is_the_table_at_its_knots_and_straight_between_them() -> None:
    for through, clean in zip(THROUGH, FACTORS, strict=True):
        assert factor(through, 0.0) == pytest.approx(clean)
        assert factor(through, NOISY_SHARE) == pytest.approx(1.0)
    # Halfway between two knots, and halfway to the noise that leaves all as it is, it is the mean of four.
    assert factor(0.25, 0.002) == pytest.approx(np.mean([FACTORS[0], FACTORS[1], 1.0, 1.0]))
    # A quarter of the way in noise: three parts of the clean one, one of 1.
    assert factor(1.0, 0.001) == pytest.approx(0.75 * FACTORS[2] + 0.25)


def test_beyond_the_last_knot_the_factor_stays() -> None:
    assert factor(1.0, 0.2) == factor(0.0, 0.2) == 1.0


def test_no_spread_is_widened_and_a_clean_bottom_gone_through_is_known_best() -> None:
    assert max(FACTORS) <= 1.0
    assert min(FACTORS) == FACTORS[2]


def test_the_fit_finds_by_how_much_spreads_are_too_wide() -> None:
    # Normal misses of a deviation that is half of the stated: by 0.5, up to the chance of 4 000 draws (2 %) and the
    # steps of the factors that are tried (4 %). Of those stated twice too small nothing is made: 1 is the most.
    draws = np.abs(np.random.default_rng(7).normal(0.0, 1.0, 4000))
    wide = [Start("any", 1.0, 0.0, 0.01, 0.5 * float(off)) for off in draws]
    small = [Start("any", 0.0, 0.0, 0.01, 2.0 * float(off)) for off in draws]
    factors = table(wide + small)
    assert factors[2] == pytest.approx(0.5, rel=0.06)
    assert factors[0] == 1.0
    # Under noise nothing is narrowed.
    assert table([replace(one, noise=0.01) for one in wide])[2] == 1.0


def test_an_interval_scores_its_width_and_forty_times_what_lies_outside() -> None:
    # Spread 0.1 s, interval 2 · 0.196 s; a miss of 0.3 s lies 0.104 s outside; 2 / 0.05 = 40.
    assert score([Start("any", 0.0, 0.0, 0.1, 3.0)], 1.0) == pytest.approx(0.392 + 40.0 * 0.104)
    assert score([Start("any", 0.0, 0.0, 0.1, 1.0)], 0.5) == pytest.approx(0.196 + 40.0 * 0.002)
