"""Tables: rise against frames, gravity by planet, frame rates, feet and inches.

The rise tables were worked from h = g t² / 2 with the standard acceleration (3rd CGPM 1901, Resolution 2, as
scipy.constants.g has it); each row is put into a track, audited and asked back. Examples marked "common
practice, no source" are what animators are taught, and no more than that.
"""

import math

import pytest
from leapwright.analysis import GRAVITIES, Jump, Settings, World, audit_track
from leapwright.analysis.units import meters_of
from leapwright.analysis.world import STANDARD_GRAVITY
from scipy import constants

from .worked import Worked

NTSC = 1.001
"""fps_base of the rates of 60, 30 and 24 slowed by a thousandth (Blender's frame rate presets)."""

FOOT, INCH = constants.foot, constants.inch


def audited(worked: Worked, *, fps: float, phase: float = 0.0, gravity: float | None = None) -> Jump:
    track, _ = worked.track(fps=fps, phase=phase)
    asked = worked.gravity if gravity is None else gravity
    audit = audit_track(track, Settings(world=World(gravity=asked)))
    assert len(audit.jumps) == 1, audit.notes
    return audit.jumps[0]


# Frames of rise: centimeters at 24, 25 and 30 fps. Fewer than 4 hold too few frames for an arc.
RISES = (
    (4, 13.62, 12.55, 8.72),
    (5, 21.28, 19.61, 13.62),
    (6, 30.65, 28.24, 19.61),
    (7, 41.71, 38.44, 26.70),
    (8, 54.48, 50.21, 34.87),
    (9, 68.95, 63.55, 44.13),
    (10, 85.13, 78.45, 54.48),
    (11, 103.00, 94.93, 65.92),
    (12, 122.58, 112.97, 78.45),
    (14, 166.85, 153.77, 106.78),
    (16, 217.93, 200.84, 139.47),
    (20, 340.51, 313.81, 217.93),
    (24, 490.33, 451.89, 313.81),
)


@pytest.mark.parametrize(
    ("frames", "fps", "centimeters"),
    [(row[0], fps, cm) for row in RISES for fps, cm in zip((24, 25, 30), row[1:], strict=True)],
)
def test_a_rise_of_so_many_frames_is_this_high(frames: int, fps: int, centimeters: float) -> None:
    height = constants.g * (frames / fps) ** 2 / 2
    jump = audited(Worked(height=height, push=height, gravity=constants.g), fps=fps)
    # Takeoff lies on a frame here: what is left is 0.02 frame, and v · 0.02 / fps is 0.04 h / n.
    assert jump.flight.height.value * 100 == pytest.approx(centimeters, rel=0.04 / frames, abs=0.005)
    assert jump.flight.rise.value == pytest.approx(frames, abs=0.02)
    assert jump.flight.rise_expected.value == pytest.approx(frames, abs=0.02)


# Meters: frames of rise at 24, 25, 30 and 60 fps.
HEIGHTS = (
    (0.20, 4.85, 5.05, 6.06, 12.12),
    (0.30, 5.94, 6.18, 7.42, 14.84),
    (0.40, 6.85, 7.14, 8.57, 17.14),
    (0.50, 7.66, 7.98, 9.58, 19.16),
    (0.60, 8.40, 8.75, 10.49, 20.99),
    (0.75, 9.39, 9.78, 11.73, 23.47),
    (1.00, 10.84, 11.29, 13.55, 27.10),
    (1.50, 13.27, 13.83, 16.59, 33.19),
    (2.00, 15.33, 15.97, 19.16, 38.32),
    (3.00, 18.77, 19.55, 23.47, 46.93),
    (5.00, 24.24, 25.25, 30.29, 60.59),
    (10.0, 34.27, 35.70, 42.84, 85.69),
    (1 * FOOT, 5.98, 6.23, 7.48, 14.96),
    (2 * FOOT, 8.46, 8.81, 10.58, 21.16),
    (3 * FOOT, 10.36, 10.80, 12.96, 25.91),
    (4 * FOOT, 11.97, 12.47, 14.96, 29.92),
    (6 * FOOT, 14.66, 15.27, 18.32, 36.64),
    (10 * FOOT, 18.92, 19.71, 23.65, 47.31),
)


@pytest.mark.parametrize(
    ("height", "fps", "frames"),
    [(row[0], fps, n) for row in HEIGHTS for fps, n in zip((24, 25, 30, 60), row[1:], strict=True)],
)
def test_a_jump_this_high_rises_so_many_frames(height: float, fps: int, frames: float) -> None:
    jump = audited(Worked(height=height, push=height, gravity=constants.g), fps=fps, phase=0.37)
    # The table has two digits. A takeoff that is off by 0.02 frame counts half in what is expected, since t goes as
    # the root of h.
    assert jump.flight.rise.value == pytest.approx(frames, abs=0.005 + 0.02)
    assert jump.flight.rise_expected.value == pytest.approx(frames, abs=0.005 + 0.01)
    assert jump.flight.pace.value == pytest.approx(1.0, abs=0.01)


@pytest.mark.parametrize(("seconds", "meters", "feet"), [(0.5, 1.2258, 4.022), (0.75, 2.7581, 9.049)])
def test_a_fall_from_rest_takes_the_tabled_time(seconds: float, meters: float, feet: float) -> None:
    # s = g t² / 2, worked with the standard acceleration; a landing that is off by 0.02 frame of 30.
    jump = audited(Worked(height=0.5, push=0.4, drop=meters, gravity=constants.g), fps=30, phase=0.6)
    assert jump.flight.fall.value / 30 == pytest.approx(seconds, abs=0.02 / 30)
    assert jump.flight.drop.value == pytest.approx(feet * FOOT, rel=0.001)


@pytest.mark.parametrize(
    ("frames", "fps", "inches"),
    [
        # Common practice, no source: at 24 fps about 8 frames up for 20 inches, 12 for 4 feet.
        (8, 24, 20.0),
        (12, 24, 48.0),
    ],
)
def test_the_animators_rule_of_thumb_lies_within_a_frame(frames: int, fps: int, inches: float) -> None:
    jump = audited(Worked(height=inches * INCH, push=inches * INCH, gravity=constants.g), fps=fps)
    assert jump.flight.rise_expected.value == pytest.approx(frames, abs=0.5)


def test_four_feet_over_a_one_foot_push_is_twelve_up_and_three_for_the_push() -> None:
    # Common practice, no source. Three frames of push cannot be resolved at 24 fps (11.97 / 4 = 2.99): the
    # frames the push should take come from crouch, takeoff and apex, filmed finer.
    jump = audited(Worked(height=4 * FOOT, push=1 * FOOT, gravity=constants.g), fps=96)
    assert jump.push.expected.value / 4 == pytest.approx(3.0, abs=0.02)
    assert jump.flight.rise.value / 4 == pytest.approx(12.0, abs=0.05)


def test_a_push_ratio_of_two_halves_the_frames_of_the_rise() -> None:
    # Common practice, no source; it is the law t_p = t_r / R.
    jump = audited(Worked(height=0.80, push=0.40, gravity=constants.g), fps=24, phase=0.2)
    assert jump.push.expected.value == pytest.approx(jump.flight.rise.value / 2, abs=0.02)
    assert jump.push.frames.value == pytest.approx(jump.flight.rise.value / 2, abs=0.02)


def test_a_snappy_jump_keeps_its_style_in_the_push() -> None:
    # Common practice, no source: a jump worth 5 to 6 frames up, played snappy in 3, with a push ratio of 1
    # needs a push of 3. Filmed twice as fine (6 of 11) so that the arc can be read.
    height = constants.g * (5.5 / 24) ** 2 / 2
    snappy = constants.g * (5.5 / 3) ** 2
    worked = Worked(height=height, push=height, gravity=snappy)
    jump = audited(worked, fps=48, gravity=constants.g)
    assert jump.flight.rise.value / 2 == pytest.approx(3.0, abs=0.02)
    assert jump.flight.rise_expected.value / 2 == pytest.approx(5.5, abs=0.02)
    assert jump.push.expected.value / 2 == pytest.approx(3.0, abs=0.02)
    assert jump.push.agreement.value == pytest.approx(1.0, abs=0.02)
    assert {finding.code.split("-")[0] for finding in jump.findings if finding.rank > 0} <= {"air"}


# Equatorial gravity, m/s², "Planets and Pluto: Physical Characteristics", JPL Solar System Dynamics; with GM
# in km³/s² (NAIF gm_de440.tpc) and equatorial radius in km (NAIF pck00010.tpc). These do not subtract what
# the planet's rotation takes off; tables that do give Jupiter about 23.1 (from memory): not to be mixed.
PLANETS = (
    ("mercury", 3.70, 2.2031868551400003e4, 2439.7),
    ("venus", 8.87, 3.24858592e5, 6051.8),
    ("mars", 3.71, 4.282837362069909e4, 3396.19),
    ("jupiter", 24.79, 1.266865319003704e8, 71492.0),
    ("saturn", 10.44, 3.793120623436167e7, 60268.0),
)


@pytest.mark.parametrize(("planet", "table", "gm", "radius"), PLANETS)
def test_the_planets_pull_as_their_table_says(planet: str, table: float, gm: float, radius: float) -> None:
    assert GRAVITIES[planet] == table
    # To half of its last digit, here and below.
    assert GRAVITIES[planet] == pytest.approx(gm / radius**2 * 1000.0, abs=0.005)


def test_the_moon_pulls_as_its_mass_and_size_say() -> None:
    # GM 4902.80012 km³/s² (NAIF gm_de440.tpc), R 1737.4 km (NAIF pck00010.tpc).
    assert GRAVITIES["moon"] == pytest.approx(4902.80012 / 1737.4**2 * 1000.0, abs=0.005)


def test_the_earth_pulls_with_the_standard_acceleration() -> None:
    # BIPM, Resolution 2 of the 3rd CGPM (1901): 980.665 cm/s².
    assert GRAVITIES["earth"] == STANDARD_GRAVITY == constants.g == 9.80665


@pytest.mark.parametrize("world", ["moon", "mars", "jupiter"])
def test_the_same_takeoff_speed_carries_as_far_as_gravity_lets_it(world: str) -> None:
    # Height and airtime both go as 1 / g.
    speed = 3.0
    at_home = audited(Worked(height=speed**2 / (2 * constants.g), push=0.4, gravity=constants.g), fps=60)
    gravity = GRAVITIES[world]
    taller = constants.g / gravity
    away = audited(Worked(height=speed**2 / (2 * gravity), push=0.4, gravity=gravity), fps=60)
    assert away.flight.height.value / at_home.flight.height.value == pytest.approx(taller, rel=0.001)
    assert away.flight.airtime.value / at_home.flight.airtime.value == pytest.approx(taller, rel=0.001)
    assert away.flight.pace.value == pytest.approx(1.0, abs=0.01)


@pytest.mark.parametrize(
    ("fps", "squared"),
    [(24, 0.017025), (25, 0.015691), (30, 0.010896), (60, 0.002724)],
)
def test_heights_on_successive_frames_differ_twice_by_this_much(fps: int, squared: float) -> None:
    # g per frame²: worked with the standard acceleration.
    jump = audited(Worked(height=1.0, push=1.0, gravity=constants.g), fps=fps)
    assert jump.flight.gravity.value / fps**2 == pytest.approx(squared, abs=5e-7)


def test_the_second_difference_at_24_frames_is_the_tabled_share_of_an_inch() -> None:
    assert constants.g / 24**2 / INCH == pytest.approx(0.6703, abs=5e-5)


@pytest.mark.parametrize(("written", "length"), [("4ft", 4 * FOOT), ("20in", 20 * INCH), ("1ft6in", FOOT + 6 * INCH)])
def test_feet_and_inches_are_the_international_ones(written: str, length: float) -> None:
    # scipy.constants (CODATA): foot and inch.
    assert meters_of(written) == pytest.approx(length, abs=1e-9)


@pytest.mark.parametrize(
    ("nominal", "rate"),
    # 24000/1001, 30000/1001 and 60000/1001 frames a second, as printed to six digits.
    [(24, 23.976024), (30, 29.970030), (60, 59.940060)],
)
def test_a_rate_slowed_by_a_thousandth_is_not_a_slower_gravity(nominal: int, rate: float) -> None:
    fps = nominal / NTSC
    assert fps == pytest.approx(rate, abs=5e-7)
    jump = audited(Worked(height=1.0, push=0.8, gravity=constants.g), fps=fps, phase=0.4)
    assert jump.flight.gravity.value == pytest.approx(constants.g, rel=5e-4)
    assert jump.flight.airtime.value / fps == pytest.approx(2 * math.sqrt(2.0 / constants.g), rel=0.005)
