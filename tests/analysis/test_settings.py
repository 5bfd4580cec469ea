"""Settings: the world and the limits of one audit."""

from leapwright.analysis import Limits, Settings, World


def test_with_nothing_said_it_is_earth_on_ones_and_a_person() -> None:
    # Standard acceleration: 3rd CGPM (1901), Resolution 2.
    settings = Settings()
    assert settings.world == World(gravity=9.80665, step=1, kind="person")
    assert settings.limits == Limits()


def test_two_audits_share_no_settings() -> None:
    assert Settings(world=World(gravity=1.62)) != Settings()
    assert Settings().world.gravity == 9.80665
