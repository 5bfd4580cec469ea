"""A mend that is followed to the letter leaves no finding of its kind, and brings none at check or above."""

from leapwright.analysis.mend import MendWay

from tests.analysis.mending.followed import Followed, followed

SEEDS = 100
"""Of which nine in ten are off; `python -m tests.bench mends` follows a thousand."""


def test_followed_to_the_letter_every_mend_leaves_the_jump_right() -> None:
    tries: list[Followed] = [one for seed in range(SEEDS) for one in followed(seed)]
    assert len(tries) > SEEDS
    assert [one for one in tries if one.faults] == []


def test_no_height_is_offered_that_the_absorb_has_no_time_for() -> None:
    """Seed 181 falls for 17 frames and is absorbed in 3: from the height that its airtime asks for it lands stiffly."""
    ways = [one.way for one in followed(181)]
    assert ways and MendWay.HEIGHT not in ways
