"""Certainty: how sure it is that a rise and fall is a jump, as a probability and in words."""

from enum import StrEnum

SURE_FROM, LIKELY_FROM = 0.95, 0.8
"""Probability from which a jump is called sure, and likely (ours)."""


class Certainty(StrEnum):
    """The words for it, from the weakest to the strongest."""

    DOUBTFUL = "doubtful"
    LIKELY = "likely"
    SURE = "sure"


def certainty_of(probability: float) -> Certainty:
    """Name a probability, 0 to 1.

    >>> certainty_of(0.97).value, certainty_of(0.8).value, certainty_of(0.5).value
    ('sure', 'likely', 'doubtful')
    """
    if probability >= SURE_FROM:
        return Certainty.SURE
    return Certainty.LIKELY if probability >= LIKELY_FROM else Certainty.DOUBTFUL
