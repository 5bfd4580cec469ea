"""Measured jumps of animals and people: what was published of one must follow from the rest of it.

Heights and airtimes are held to the printed digits. A takeoff or crouch that is off by 0.1 frame makes 0.2 / p of a
ratio whose push lasts p frames.
"""

import numpy as np
import pytest
from leapwright.analysis import JUMPERS, Jump, Settings, World, audit_track

from .worked import Worked

G = 9.80665


def audited(worked: Worked, *, fps: float, kind: str = "person") -> Jump:
    track, _ = worked.track(fps=fps, phase=0.4)
    audit = audit_track(track, Settings(world=World(gravity=worked.gravity, kind=kind)))
    assert len(audit.jumps) == 1, audit.notes
    return audit.jumps[0]


def test_a_froghopper_pushes_with_the_printed_multiple_of_gravity() -> None:
    # Burrows M 2003, Nature 424:509: best jump 4 m/s in 1 ms, given as 408 g; 12.3 mg, 100 µJ.
    # v and t_p give d = v t_p / 2 = 2.0 mm and h = v² / 2 g; R is then what was printed.
    worked = Worked(height=4.0**2 / (2 * G), push=4.0 * 0.001 / 2, gravity=G)
    jump = audited(worked, fps=5000, kind="froghopper")
    # 5 frames of push: 0.2 / 5 of the ratio.
    assert jump.push.ratio.value == pytest.approx(408.0, rel=0.04)
    assert jump.push.frames.value / 5000 == pytest.approx(0.001, rel=0.04)
    energy = 12.3e-6 * G * (jump.flight.height.value + jump.push.distance.value)
    assert energy == pytest.approx(100e-6, rel=0.02)  # m v² / 2 is 98 µJ
    assert JUMPERS["froghopper"] * 1.05 > jump.push.ratio.value > JUMPERS["insect"]


def test_a_galago_leaves_the_ground_as_fast_as_its_height_asks() -> None:
    # Hall-Craggs ECB 1965, J Zool 147:20: standing vertical jump of 7 ft 4.75 in = 2.2542 m. The push
    # distance, 0.16 m, is from memory and only shapes the track; the checks do not rest on it.
    jump = audited(Worked(height=2.2542, push=0.16, gravity=G), fps=120, kind="galago")
    assert jump.flight.height.value == pytest.approx(2.2542, rel=1e-3)
    # v = sqrt(2 g h) = 6.649 m/s, and 2 v / g in the air.
    assert jump.flight.gravity.value * jump.flight.rise.value / 120 == pytest.approx(6.649, rel=1e-3)
    assert jump.flight.airtime.value / 120 == pytest.approx(2 * 6.649 / G, rel=1e-3)


def test_the_height_of_a_galago_is_the_work_that_gibbons_are_held_against() -> None:
    # Gibbons do 35.4 J/kg, 60 % more than galagos (Channon et al. 2011, abstract): lifted by 7 ft 4.75 in (Hall-Craggs
    # 1965), a galago does g h; "60 %" is known to half a per cent of 160 at best.
    assert pytest.approx(G * 2.2542, rel=0.01) == 35.4 / 1.60


def test_a_gibbon_rises_as_far_as_its_speed_carries_it() -> None:
    # Channon AJ et al 2011, Biol Lett (10.1098/rsbl.2011.0574): 8.3 m/s and 35.4 J/kg in one movement, said
    # to be enough for 3.5 m. The push distance, 0.5 m, is ours and only shapes the track.
    jump = audited(Worked(height=8.3**2 / (2 * G), push=0.5, gravity=G), fps=60, kind="galago")
    assert jump.flight.height.value == pytest.approx(3.5, abs=0.05)
    # v² / 2 of the printed speed is 34.4 J/kg: what is printed agrees to 3 %.
    assert (jump.flight.gravity.value * jump.flight.rise.value / 60) ** 2 / 2 == pytest.approx(35.4, rel=0.03)


@pytest.mark.parametrize(
    ("who", "mass", "height"),
    [
        # Scholz MN et al 2006, Proc R Soc B 273:2177: a 34 kg bonobo and a 61.5 kg man each do about 450 J in
        # a push off; the bonobo rises 0.70 m, men 0.3 to 0.4 m. Work is m g (h + d), which gives the push.
        ("bonobo", 34.0, 0.70),
        ("man", 61.5, 0.35),
    ],
)
def test_the_work_of_a_push_is_the_printed_one(who: str, mass: float, height: float) -> None:
    push = 450.0 / (mass * G) - height
    jump = audited(Worked(height=height, push=push, gravity=G), fps=30)
    assert mass * G * (jump.flight.height.value + jump.push.distance.value) == pytest.approx(450.0, rel=0.01)
    assert jump.push.ratio.value == pytest.approx(height / push, rel=0.05)
    assert not any(finding.severity in ("check", "fix") for finding in jump.findings)


@pytest.mark.parametrize(("speed", "height"), [(1.72, 0.151), (2.41, 0.297), (3.24, 0.536)])
def test_people_rise_as_far_as_their_takeoff_speed_says(speed: float, height: float) -> None:
    # Dowling JJ, Vamos L 1993, J Appl Biomech 9:95: 97 people, takeoff speed least, mean, most, and height.
    # The printed means are of different things (mean of v², square of mean v): 1 %.
    jump = audited(Worked(height=speed**2 / (2 * 9.81), push=0.40, gravity=9.81), fps=60)
    assert jump.flight.height.value == pytest.approx(height, rel=0.01)


@pytest.mark.parametrize(
    ("record", "height", "push", "seconds", "k"),
    [
        # Force-plate records of the BMC laboratory (M. Duarte, UFABC; CC BY 4.0), integrated: height, push
        # distance, push time to feet-off and the k they give. Only the two whose rate is stated by time.
        ("jump1", 0.359, 0.467, 0.307, 0.871),
        ("jump2", 0.385, 0.512, 0.340, 0.912),
    ],
)
def test_a_recorded_push_time_is_told_from_a_constant_force(
    record: str, height: float, push: float, seconds: float, k: float
) -> None:
    # k = t_p v / (2 d), so the recorded push time over that of a constant force is k: to 0.2 of its 21 frames.
    jump = audited(Worked(height=height, push=push, gravity=G), fps=60)
    assert seconds * 60 / jump.push.frames.value == pytest.approx(k, rel=0.01)


def test_a_larger_body_takes_the_square_root_longer() -> None:
    # Equal Froude number: time goes as sqrt(L / g) (Alexander & Jayes 1983, J Zool 201:135); R stays.
    small = audited(Worked(height=0.40, push=0.40, gravity=G, hold=0.25), fps=30)
    for scale in (0.5, 2.0, 4.0, 10.0):
        large = audited(Worked(height=0.40 * scale, push=0.40 * scale, gravity=G), fps=30)
        # 0.2 frame of the shortest flight's 12, and of its push's 6.
        assert large.flight.airtime.value / small.flight.airtime.value == pytest.approx(scale**0.5, rel=0.2 / 12)
        assert large.push.ratio.value == pytest.approx(small.push.ratio.value, rel=0.2 / 6)


CATS = """
29.1 334.5  28.55 387.3  31.74 410.8  26.9 318.6  26.11 368.7  26.69 358.8  26.74 344.6  27.71 324.6  25.47 301.4
28.18 331.8  28.45 312.6  28.65 316.8  29.82 375.6  26.66 372.4  27.84 314.3  27.89 367.5  30.58 286.3  28.06 352.5
"""
"""Hind limb, cm, and greatest takeoff speed, cm/s, of 18 cats (Harris & Steudel 2002, J Exp Biol 205:3877, as the data
set CatJumping carries them)."""


def test_no_measured_cat_is_told_to_push_more_than_a_cat_has() -> None:
    limb, speed = np.array(CATS.split(), dtype=float).reshape(18, 2).T / 100.0
    rises = speed**2 / (2.0 * G)
    assert (rises.min(), rises.max()) == pytest.approx((0.418, 0.860), abs=1e-3)
    # How far they push was not read; over the whole hind limb the ratio is least, over two thirds of it at its bound:
    # 2.71 and 4.07.
    assert JUMPERS["cat"] == pytest.approx((rises / limb).max() / (2.0 / 3.0), abs=0.1)
    for length, rise in zip(limb, rises, strict=True):
        jump = audited(Worked(height=float(rise), push=0.75 * float(length), gravity=G), fps=60, kind="cat")
        assert "push-beyond" not in {finding.code for finding in jump.findings}


def test_the_bound_of_people_is_the_best_height_over_the_shortest_push_that_were_read() -> None:
    # 97 jumpers, best 0.536 m (Dowling & Vamos 1993); five plate records, shortest push 0.344 m (BMC laboratory). Two
    # digits.
    assert JUMPERS["person"] == pytest.approx(0.536 / 0.344, abs=0.05)


def test_a_locust_is_well_within_what_insects_reach() -> None:
    # E = 1.91 M^1.14 mJ, 74 % more for adults, legs of 34.9 M^0.37 mm, 12 % more (Snelling et al. 2013), M = 1 g.
    energy, leg = 1.74 * 1.91e-3, 1.12 * 34.9e-3
    ratio = energy / (1e-3 * G * leg)
    assert ratio == pytest.approx(8.7, abs=0.1)
    assert ratio < JUMPERS["insect"]
