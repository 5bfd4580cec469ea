"""A mend that is followed to the letter leaves no finding of its kind, and brings none at check or above."""

from tests.analysis.mending.followed import Followed, followed

SEEDS = 100
"""Of which nine in ten are off; `python -m tests.bench mends` follows a thousand."""

def test_followed_to_the_letter_every_mend_leaves_the_jump_right() -> None:
    tries: list[Followed] = [one for seed in range(SEEDS) for one in followed(seed)]
    assert len(tries) > SEEDS
    assert [one for one in tries if one.faults] == []
