"""The median of few numbers is numpy's own."""

import numpy as np
import pytest
from leapwright.analysis.arrays import median


@pytest.mark.parametrize("count", range(1, 12))
def test_the_median_is_the_one_of_numpy(count: int) -> None:
    values = np.random.default_rng(count).normal(size=count).round(1)
    assert median(values) == np.median(values)
