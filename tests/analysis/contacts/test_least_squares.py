"""Many small least squares at once give what scipy's solver gives for each alone."""

import numpy as np
import pytest
from leapwright.analysis.contacts.least_squares import fit, inverse_of
from scipy.optimize import least_squares

TIMES = np.linspace(0.0, 4.0, 15)


def decay(at):
    """a·exp(−b t); derived: half-life ln 2 / b; nothing believed; b must be above 0."""
    a, b = at[..., 0, None], at[..., 1, None]
    with np.errstate(over="ignore"):
        values = a * np.exp(-b * TIMES)
    half = np.log(2) / np.where(b > 0, b, 1.0)
    return values, half[..., 0], np.zeros(at.shape[:2]), at[..., 1] > 0


def grid(count):
    a, b = np.meshgrid([0.5, 1.0, 2.0], [0.1, 0.5, 1.0])
    return np.broadcast_to(np.stack((a.ravel(), b.ravel()), axis=1), (count, 9, 2))


def samples(count, noise, seed=2):
    rng = np.random.default_rng(seed)
    truth = np.stack((rng.uniform(0.6, 1.8, count), rng.uniform(0.2, 0.9, count)), axis=1)
    values = truth[:, :1] * np.exp(-truth[:, 1:] * TIMES)
    return truth, values + rng.normal(0, noise, values.shape)


def solved(values, noise, *, weights=None, free=None, count=None):
    n = len(values)
    return fit(
        decay,
        grid(n),
        values,
        np.ones_like(values) if weights is None else weights,
        free=np.ones((n, 2), bool) if free is None else free,
        noise=noise,
    )


def test_exact_samples_give_their_unknowns_back():
    truth, values = samples(20, 0.0)
    found = solved(values, 1e-6)
    np.testing.assert_allclose(found.unknowns, truth, rtol=1e-6)
    np.testing.assert_allclose(found.derived, np.log(2) / truth[:, 1], rtol=1e-6)
    assert (found.rss < 1e-12).all()


def test_noisy_samples_give_the_minimum_and_the_errors_of_scipy():
    truth, values = samples(12, 0.02)
    found = solved(values, 1e-6)
    for row in range(12):
        own = least_squares(lambda p, z=values[row]: p[0] * np.exp(-p[1] * TIMES) - z, truth[row], xtol=1e-12)
        np.testing.assert_allclose(found.unknowns[row], own.x, rtol=1e-4)
        assert found.rss[row] == pytest.approx(2 * own.cost, rel=1e-4)
        covariance = np.linalg.inv(own.jac.T @ own.jac) * 2 * own.cost / (len(TIMES) - 2)
        np.testing.assert_allclose(found.errors[row], np.sqrt(np.diag(covariance)), rtol=1e-3)
        # Half-life: its slope with b is −ln 2 / b².
        spread = np.log(2) / own.x[1] ** 2 * np.sqrt(covariance[1, 1])
        assert found.derived_error[row] == pytest.approx(spread, rel=1e-3)
        shared = -np.log(2) / own.x[1] ** 2 * covariance[1]
        np.testing.assert_allclose(found.together[row], shared, rtol=1e-3)


def test_no_row_changes_another():
    _, values = samples(6, 0.02)
    together = solved(values, 1e-6)
    for row in range(6):
        alone = solved(values[row : row + 1], 1e-6)
        np.testing.assert_allclose(alone.unknowns[0], together.unknowns[row], rtol=1e-5)


def test_a_value_without_weight_counts_for_nothing():
    truth, values = samples(5, 0.0)
    weights = np.ones_like(values)
    values[:, 3], weights[:, 3] = 99.0, 0.0
    found = solved(values, 1e-6, weights=weights)
    np.testing.assert_allclose(found.unknowns, truth, rtol=1e-6)
    assert (found.count == len(TIMES) - 1).all()


def test_an_unknown_that_may_not_move_stays_where_it_was_put_and_has_no_error():
    _, values = samples(4, 0.0)
    free = np.array([[True, True], [True, False], [True, True], [True, False]])
    found = solved(values, 1e-6, free=free)
    held = found.unknowns[[1, 3], 1]
    assert set(held) <= {0.1, 0.5, 1.0}
    assert (found.errors[[1, 3], 1] == 0).all() and (found.errors[[0, 2], 1] > 0).all()


def test_no_error_is_smaller_than_the_noise_allows():
    _, values = samples(1, 0.0)
    tight, wide = solved(values, 1e-6), solved(values, 1e-2)
    np.testing.assert_allclose(wide.errors / tight.errors, 1e4, rtol=1e-3)


def test_where_nothing_is_possible_the_residual_is_infinite():
    def never(at):
        values, derived, belief, possible = decay(at)
        return values, derived, belief, possible & False

    _, values = samples(3, 0.0)
    found = fit(never, grid(3), values, np.ones_like(values), free=np.ones((3, 2), bool), noise=1e-6)
    assert np.isinf(found.rss).all()


@pytest.mark.parametrize("shape", [(3, 3), (5, 3, 3), (2, 4, 4)])
def test_inverses_are_those_of_numpy(shape):
    matrices = np.random.default_rng(7).normal(size=shape) + 4.0 * np.eye(shape[-1])
    np.testing.assert_allclose(inverse_of(matrices), np.linalg.inv(matrices), atol=1e-14)
