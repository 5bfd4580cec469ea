"""Tables are interpolated as numpy interpolates, and stay beyond their ends."""

import numpy as np
import pytest
from leapwright.analysis.events.weights import WEIGHTS


@pytest.mark.parametrize("name", WEIGHTS)
def test_a_table_is_read_as_numpy_would_read_it(name: str) -> None:
    table = WEIGHTS[name]
    values = [*table.knots, *np.linspace(table.knots[0] - 1.0, table.knots[-1] + 1.0, 41)]
    assert [table.at(value) for value in values] == pytest.approx(np.interp(values, table.knots, table.nats), abs=1e-15)
