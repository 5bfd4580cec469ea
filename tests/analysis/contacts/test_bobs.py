"""A bob against a flight: which of them the samples between two bottoms ask for, in nats."""

from types import SimpleNamespace

import numpy as np
import pytest
from leapwright.analysis.contacts.bobs import against_a_bob
from leapwright.analysis.contacts.bottom import Bottom
from leapwright.analysis.contacts.side import Contact

from tests.truth.worked import Worked


def between(frames: np.ndarray, heights: np.ndarray, bottoms: tuple[float, float], contacts: tuple[float, float],
            *, noise: float = 1e-6) -> float | None:  # fmt: skip
    """Return the nats of these contacts against a bob, both frames; of the landing's time is turned back."""
    start, end = (Bottom(frame, 0.1, 0.0, held=False, cut=False) for frame in (bottoms[0], -bottoms[1]))
    flight = SimpleNamespace(takeoff=Contact(contacts[0], 0.1, start), landing=Contact(-contacts[1], 0.1, end))
    return against_a_bob(flight, frames, heights, noise=noise)


def test_a_worked_jump_asks_for_its_contacts() -> None:
    # The height of a textbook's jump, pushed by a constant force: no smooth curve turns as sharply at its contacts.
    track, truth = Worked(height=0.5, push=0.4).track(fps=24.0, phase=0.3)
    ends = (truth["crouch"], truth["absorbed"]), (truth["takeoff"], truth["landing"])
    assert between(track.frames, track.heights, *ends) > 10.0


def test_smooth_motion_asks_for_none() -> None:
    """One period of a cosine, as a bob's: a polynomial of degree 6 is off by under a thousandth of it."""
    frames = np.arange(25.0)
    assert between(frames, 0.5 - 0.5 * np.cos(frames / 12 * np.pi), (0.0, 24.0), (7.0, 17.0)) < 0.0


@pytest.mark.parametrize(("samples", "is_told"), [(9, False), (12, True)])
def test_three_samples_more_than_a_bob_has_terms_are_compared(samples: int, is_told: bool) -> None:
    frames = np.arange(16.0)
    heights = 1.0 - (frames / 6.0 - 1.0) ** 2
    told = between(frames, heights, (0.0, float(samples)), (2.0, samples - 2.0))
    assert (told is not None) is is_told


@pytest.mark.parametrize(("share", "least", "most"), [(0.0005, 4.0, 10.0), (0.002, 25.0, 42.0)])
def test_what_a_bob_misses_counts_from_two_thousandths_of_the_rise_on(share: float, least: float, most: float) -> None:
    """A parabola whose ends bend away from it at the contacts, so far that a bob misses it by a share of a meter.

    Of n = 25 samples n / 2 · log((bob + floor) / (leap + floor)) nats are told, the floor 0.1 n (2 ‰ of the rise)². A
    bob that misses each sample by a share s of the rise, where the leap misses none, is worth 12.5 log(1 + 10 (s /
    2 ‰)²): 6 at 0.5 ‰, 30 at 2 ‰; a little more here, since the bends make the rise smaller.
    """
    frames = np.arange(25.0)
    bend = np.clip(np.abs(frames - 12.0) - 6.0, 0.0, None) ** 2
    missed = np.polynomial.Polynomial.fit(frames, bend, 6)(frames) - bend
    heights = 1.0 - ((frames - 12.0) / 12.0) ** 2 + share * bend / float(np.sqrt(np.mean(missed**2)))
    assert least <= between(frames, heights, (0.0, 24.5), (6.0, 18.0)) <= most
