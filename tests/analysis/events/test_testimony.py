"""The one rule: nats are added, densities are multiplied, and a witness that stands alone is outvoted."""

import math

import pytest
from leapwright.analysis.events.testimony import PLACES_BESIDE, ContactReading, Testimony, probability, weighed
from leapwright.analysis.events.weights import WEIGHTS, nats

FPS = 24.0


def test_nats_add_up_to_the_log_of_the_odds() -> None:
    belief = nats({"belief": 1.0})
    for said in ((0.0,), (2.0, -0.5), (-3.0, 1.0, 0.25)):
        chance = probability([Testimony(one) for one in said])
        assert math.log(chance / (1 - chance)) == pytest.approx(belief + sum(said))


def test_two_that_agree_are_weighed_by_their_precision() -> None:
    # Means weighed by 1 / σ², the least variance of unbiased means: (10 / 0.01 + 10.3 / 0.04) / (1 / 0.01 + 1 / 0.04).
    found = weighed([(ContactReading(10.0, 0.1, 1.0),), (ContactReading(10.3, 0.2, 1.0),)], fps=FPS)
    assert found.frame == pytest.approx(10.06, abs=0.005)
    assert found.error == pytest.approx(1 / math.sqrt(1 / 0.01 + 1 / 0.04), rel=0.03)


def test_one_that_stands_alone_is_outvoted_not_averaged_in() -> None:
    accounts = [(ContactReading(10.0, 0.2, 0.9),), (ContactReading(10.1, 0.2, 0.9),), (ContactReading(16.0, 0.2, 0.9),)]
    found = weighed(accounts, fps=FPS)
    # The middle of the two that agree; all three have their mean at 12.03.
    assert found.frame == pytest.approx(10.05, abs=0.05)


def test_of_several_keys_the_one_that_another_account_points_at_is_taken() -> None:
    keys = tuple(ContactReading(frame, 0.05, 0.3) for frame in (8.0, 11.0, 14.0))
    found = weighed([keys, (ContactReading(11.4, 0.5, 0.9),)], fps=FPS)
    # The key at 11 is 0.8 errors from 11.4; those at 8 and 14 are 6.8 and 5.2 errors away.
    assert found.frame == pytest.approx(11.0, abs=0.1)


def test_accounts_that_contradict_each_other_alike_leave_a_wide_error() -> None:
    found = weighed([(ContactReading(10.0, 0.2, 0.9),), (ContactReading(14.0, 0.2, 0.9),)], fps=FPS)
    # Half of the product lies at 10 and half at 14: mean 12, standard deviation 2.
    assert 10.5 < found.frame < 13.5 and found.error > 1.5


def test_who_cannot_say_has_no_say() -> None:
    only = ContactReading(10.0, 0.3, 0.5)
    assert weighed([(), (only,), ()], fps=FPS) == only
    assert weighed([(), ()], fps=FPS) is None


@pytest.mark.parametrize("name", WEIGHTS)
def test_a_table_rises_in_its_knots_and_stays_beyond_them(name: str) -> None:
    table = WEIGHTS[name]
    assert len(table.knots) == len(table.nats) and list(table.knots) == sorted(set(table.knots))
    assert (table.at(-1e9), table.at(1e9)) == (table.nats[0], table.nats[-1])


@pytest.mark.parametrize("error", [0.02, 0.1, 1.0])
@pytest.mark.parametrize("apart", [0.0, 0.5, 1.0, 1.8, 2.6, 3.4])
def test_the_product_of_two_normal_densities_is_worked_out_closely(error: float, apart: float) -> None:
    """Two densities of one width: the product lies half way between, 1/√2 as wide (a standard result). apart: in
    standard errors.

    What lies under a fiftieth of the highest density is cut off, which makes the product narrower by some per cent.
    """
    found = weighed([(ContactReading(10.0, error, 1.0),), (ContactReading(10.0 + apart * error, error, 1.0),)], fps=FPS)
    assert found.frame == pytest.approx(10.0 + 0.5 * apart * error, abs=0.02 * error)
    assert found.error == pytest.approx(error / math.sqrt(2.0), rel=0.06)


def test_no_more_is_worked_out_than_that_takes() -> None:
    # Past four errors lies 6e-5 of a normal density (its table). Each place costs a row of the product, a witness more.
    assert (PLACES_BESIDE.min(), PLACES_BESIDE.max()) == (-4.0, 4.0)
    assert len(PLACES_BESIDE) < 2 * 10, "twice as many places as the test above needs"


@pytest.mark.parametrize(("share", "is_heard"), [(0.014, False), (0.028, True)])
def test_what_is_under_a_fiftieth_as_likely_as_the_likeliest_has_no_say(share: float, is_heard: bool) -> None:
    # Two places of equal width, 4 frames apart, the second with a share p of the trust in the first: heard, it widens
    # the error to √(p · 4²) = 0.67 frames; not heard, the error stays under the 0.1 of the first.
    found = weighed([(ContactReading(10.0, 0.1, 0.8), ContactReading(14.0, 0.1, 0.8 * share))], fps=FPS)
    assert (found.error > 0.4) is is_heard


def test_time_may_run_either_way() -> None:
    accounts = [(ContactReading(10.0, 0.1, 0.9),), (ContactReading(10.3, 0.3, 0.9),)]
    turned = [tuple(one._replace(frame=-one.frame) for one in account) for account in accounts]
    assert weighed(turned, fps=FPS).frame == pytest.approx(-weighed(accounts, fps=FPS).frame, abs=1e-9)
