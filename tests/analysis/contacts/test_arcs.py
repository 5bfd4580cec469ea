"""The arc is the least-squares parabola of the samples strictly in the air, with the errors of the theory."""

import numpy as np
import pytest
from leapwright.analysis.contacts.arcs import apex_of, arc_between, arc_over, is_followed, on_arc

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""
FPS = 24.0
TAKEOFF, LANDING = 3.4, 15.8
APEX = (TAKEOFF + LANDING) / 2
FRAMES = np.arange(20.0)


def heights(noise=0.0, seed=0):
    """Return the parabola in the air; the ground is level with the contacts."""
    t = (FRAMES - APEX) / FPS
    top = 0.5 * G * ((LANDING - TAKEOFF) / 2 / FPS) ** 2
    flight = np.maximum(top - 0.5 * G * t**2, 0.0)
    return flight + np.random.default_rng(seed).normal(0, noise, len(t)) if noise else flight


def arc(z, *, takeoff=TAKEOFF, landing=LANDING, noise=0.0, frames=FRAMES):
    return arc_between(frames, z, takeoff, landing, fps=FPS, noise=noise)


def test_gravity_and_vertex_of_an_exact_flight_are_exact():
    found = arc(heights())
    assert found.gravity == pytest.approx(G)
    assert found.apex_frame == pytest.approx(APEX)
    assert found.apex_height == pytest.approx(0.5 * G * (6.2 / FPS) ** 2)
    assert (found.first, found.last, found.count) == (4, 15, 12)
    assert found.residual_rms < 1e-12


def test_a_sample_on_a_contact_is_not_in_the_air():
    found = arc(heights(), takeoff=4.0, landing=15.0)
    assert (found.first, found.last) == (5, 14)


def test_fewer_than_five_samples_between_the_contacts_are_no_arc():
    assert arc(heights(), takeoff=7.2, landing=11.5) is None
    assert arc(heights(), takeoff=6.2, landing=11.5).count == 5


def test_samples_on_one_side_of_the_top_are_no_flight():
    assert arc(heights(), takeoff=10.2, landing=15.8) is None


def test_the_error_of_gravity_is_the_regressions():
    z = heights(noise=0.003)
    found = arc(z)
    (c2, *_), covariance = np.polyfit(FRAMES[4:16] / FPS, z[4:16], 2, cov=True)
    assert found.gravity == pytest.approx(-2 * c2, rel=1e-9)
    assert found.gravity_error == pytest.approx(2 * np.sqrt(covariance[0, 0]), rel=1e-6)


def test_the_noise_of_the_track_is_a_floor_under_the_error():
    assert arc(heights(), noise=0.004).gravity_error == pytest.approx(2 * arc(heights(), noise=0.002).gravity_error)


def test_the_apexs_error_is_that_of_a_monte_carlo():
    # 400 draws give a standard deviation to 1/√800 = 4 %; the stated one leaves the curvature's share out.
    apexes, stated = [], []
    for seed in range(400):
        event = apex_of(arc(heights(noise=0.005, seed=seed + 1)), FPS)
        apexes.append(event.frame)
        stated.append(event.frame_error)
    assert np.mean(apexes) == pytest.approx(APEX, abs=0.02)
    assert np.std(apexes) == pytest.approx(np.mean(stated), rel=0.25)


def test_a_contact_is_placed_on_the_arc_not_on_the_samples():
    event = on_arc(TAKEOFF, 0.1, arc(heights()), FPS)
    assert event.height == pytest.approx(0.0, abs=1e-9)
    assert (event.frame, event.frame_error) == (TAKEOFF, 0.1)


def test_a_contact_sample_on_either_side_pulls_gravity_down():
    # Six air samples and one of a constant push on either side, as the room's docstring says: some 6 %.
    frames = np.arange(12.0)
    off, on = 2.5, 8.5
    air = 0.5 * G / FPS**2 * (3.0**2 - (frames - 5.5) ** 2)
    push = 0.5 * 1.5 * G / FPS**2
    z = air + push * (np.maximum(off - frames, 0.0) ** 2 + np.maximum(frames - on, 0.0) ** 2)
    clean = arc_between(frames, z, off, on, fps=FPS)
    touched = arc_between(frames, z, off - 1, on + 1, fps=FPS)
    assert clean.count == 6 and touched.count == 8
    assert clean.gravity == pytest.approx(G)
    assert 0.90 < touched.gravity / G < 0.97


@pytest.mark.parametrize(("bend", "follows"), [(0.0, True), (0.8, True), (0.95, False)])
def test_samples_follow_an_arc_as_closely_as_a_quarter_of_a_percent_of_its_height(bend, follows):
    """Bent to and fro about the arc, each of twelve samples misses it by as much; nine are over what a parabola has
    terms, so that it counts √(12 / 9) times: 0.92 and 1.10.
    """
    z = heights()
    off = 2.5e-3 * float(np.ptp(z[4:16])) * (-1.0) ** np.arange(20)
    assert is_followed(arc_over(FRAMES[4:16], (z + bend * off)[4:16], FPS, 0.0), noise=0.0, fps=FPS) is follows


def test_a_sagging_curve_follows_no_arc_and_has_none_with_its_top_between_the_contacts():
    sagging = -heights()
    assert not is_followed(arc_over(FRAMES[4:16], sagging[4:16], FPS, 0.0), noise=0.0, fps=FPS)
    assert arc(sagging) is None
