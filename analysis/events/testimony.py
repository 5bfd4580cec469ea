"""Testimony: what a witness says of a rise and fall; and the one rule that weighs what all of them say.

Witnesses are taken as independent: nats for and against a flight are added to those that are believed
beforehand, and the densities that they give a contact are multiplied.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from ..arrays import Array
from .weights import nats

FAINT_DENSITY_SHARE = 0.02
"""Share of the highest density under which the product counts as nothing, so that what is spread evenly has no say
(ours)."""
SAME_PLACE_FRAMES = 0.25
"""Frames around the highest point of the product that are one place, such as a key (ours)."""
TRUST = 0.9
"""Most that a witness is trusted to be right about a contact (ours); what is left is spread evenly over a second."""
SAME_CONTACT_ERRORS = 3.0
"""Standard errors within which two say the same, such as of one contact: 99.7 % of a normal error."""
PLACES_BESIDE = (away := np.linspace(-2.0, 2.0, 19)) * np.abs(away)
"""Where the product is worked out, in standard errors around each reading: up to four, ever more closely toward it."""


class ContactReading(NamedTuple):
    """Where a contact may lie: frame, standard error in frames, and how far the witness is to be trusted, 0 to 1."""

    frame: float
    error: float
    trust: float


def backward(readings: Sequence[ContactReading]) -> tuple[ContactReading, ...]:
    """Return the same readings with time reversed."""
    return tuple([ContactReading(-frame, error, trust) for frame, error, trust in readings])


@dataclass(frozen=True, slots=True)
class Testimony:
    """What one witness says.

    nats               log of how much likelier what it saw is of a jump than of anything else
    takeoff, landing   where the contacts may lie, one of several readings each; empty: it cannot say
    seen               what it saw, by the names of the tables in weights.py
    """

    nats: float
    takeoff: tuple[ContactReading, ...] = ()
    landing: tuple[ContactReading, ...] = ()
    seen: Mapping[str, float] = field(default_factory=dict)


def probability(testimonies: Sequence[Testimony]) -> float:
    """Tell how sure all of them together are of a jump, 0 to 1.

    >>> probability([Testimony(5.0), Testimony(-2.0)]) == probability([Testimony(3.0)])
    True
    """
    total = nats({"belief": 1.0}) + sum([testimony.nats for testimony in testimonies])
    return 1.0 / (1.0 + math.exp(-max(min(total, 40.0), -40.0)))


def weighed(accounts: Sequence[Sequence[ContactReading]], *, fps: float) -> ContactReading | None:
    """Return the contact that several accounts agree on: mean and standard deviation of the product of their densities.

    Each account is a mixture of its readings, and what their trust leaves over is spread evenly over a second; so
    an account that stands alone is outvoted, not averaged in. None without any.

    >>> one = weighed([(ContactReading(10.0, 0.1, 0.9),), (ContactReading(10.2, 0.1, 0.9),)], fps=24)
    >>> round(one.frame, 3), round(one.error, 2)
    (10.1, 0.07)
    """
    said = [account for account in accounts if account]
    if not said:
        return None
    if len(said) == 1 and len(said[0]) == 1:
        return said[0][0]
    frames, errors, trust = np.array([reading for account in said for reading in account]).T
    errors = np.maximum(errors, 1e-6)
    at = np.sort((frames[:, None] + errors[:, None] * PLACES_BESIDE).ravel())
    at = at[np.concatenate(([True], at[1:] != at[:-1]))]
    density = trust / (errors * math.sqrt(2 * math.pi)) * np.exp(-0.5 * ((at[:, None] - frames) / errors) ** 2)
    log, first = np.zeros(len(at)), 0
    for account in said:
        mine = slice(first, first := first + len(account))
        log += np.log(density[:, mine].sum(axis=1) + (1.0 - trust[mine].sum()) / fps + 1e-12)
    product = np.exp(log - log.max())
    product[product < FAINT_DENSITY_SHARE] = 0.0
    weight = product * _widths(at)
    weight /= weight.sum()
    mean = float(weight @ at)
    peak = np.abs(at - at[product.argmax()]) <= SAME_PLACE_FRAMES
    there = weight[peak]
    # Between two keys, where the mean lies, the contact surely is not: where one has most of the product, it is there.
    if float(there.sum()) > 0.5:
        mean = float(there @ at[peak] / there.sum())
    return ContactReading(mean, float(math.sqrt(weight @ (at - mean) ** 2)), 1.0)


def _widths(at: Array) -> Array:
    """Tell how much of the time axis each place stands for: half way to the ones beside it, at the ends all the way."""
    if len(at) < 2:
        return np.ones(1)
    steps = at[1:] - at[:-1]
    return np.concatenate((steps[:1], (at[2:] - at[:-2]) / 2.0, steps[-1:]))
