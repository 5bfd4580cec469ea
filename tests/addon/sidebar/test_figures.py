"""Figures stand in the scene's own units.

Foot and inch: international yard and pound agreement of 1959 (0.3048 m and 0.0254 m, exact). Where Blender
chooses the unit itself, its own `bpy.utils.units` is the reference.
"""

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.sidebar import figures
from leapwright.analysis.findings import FINDERS

from tests.addon.scenery import empty, hopping


@pytest.fixture
def jump(scene):
    bpy.context.view_layer.objects.active = hopping(empty())
    bpy.ops.leapwright.audit_jump()
    return results.latest(scene).audit.jumps[0]


def plain(template, values, units):
    return figures.in_words(template, values, units).replace(figures.KEPT, " ")


@pytest.mark.parametrize(
    ("system", "unit", "text"),
    [
        ("METRIC", "METERS", "1.22 m"),
        ("METRIC", "CENTIMETERS", "121.9 cm"),
        ("METRIC", "ADAPTIVE", "1.22 m"),
        ("IMPERIAL", "FEET", "4'"),
        ("IMPERIAL", "INCHES", '48"'),
        ("IMPERIAL", "ADAPTIVE", "4'"),
    ],
)
def test_a_height_of_four_feet_is_written_as_the_scene_shows_it(scene, system, unit, text):
    units = scene.unit_settings
    units.system = system
    units.length_unit = unit
    assert plain("{up:.2f} m", {"up": 1.2192}, units) == text


def test_without_a_unit_system_lengths_are_bare_units(scene):
    scene.unit_settings.system, scene.unit_settings.scale_length = "NONE", 0.01
    assert plain("{up:.2f} m", {"up": 1.2}, scene.unit_settings) == "120"


def test_a_sentence_is_said_in_feet_where_the_scene_is(scene):
    scene.unit_settings.system = "IMPERIAL"
    said = plain(
        "{n:g} frames where {up:.2f} m up at {v:.1f} m/s ask for {m:.1f} more",
        {"n": 9, "up": 0.6096, "v": 3.048, "m": 2.0},
        scene.unit_settings,
    )
    assert said == "9 frames where 2' up at 10 ft/s ask for 2.0 more"


def test_the_sentence_of_every_finding_can_be_said_in_feet(scene, jump):
    scene.unit_settings.system = "IMPERIAL"
    assert FINDERS and jump.findings
    for finding in jump.findings:
        for template in (finding.template, finding.mend_template):
            assert " m " not in plain(template, finding.values, scene.unit_settings)


def test_measured_stands_beside_expected(scene, jump):
    rows = {row.label: row for row in figures.timing(jump)}
    assert rows["Airtime"].measured.startswith("14")
    expected = jump.flight.rise_expected.value + jump.flight.fall_expected.value
    assert float(rows["Airtime"].expected) == pytest.approx(expected, abs=0.05)
    world = results.latest(scene).world
    paces = {row.label: row for row in figures.paces(jump, world, scene.unit_settings)}
    assert paces["Gravity"].expected == "9.81 m/s²"
    assert paces["Push Pace"].expected == paces["Air Pace"].measured
    sizes = {row.label: row for row in figures.sizes(jump, scene.unit_settings)}
    assert sizes["Jump Height"].measured == figures.height(jump, scene.unit_settings) == "0.6 m"
    assert sizes["Push Ratio"].expected == "1.6"


def test_events_are_named_in_their_order(scene, jump):
    rows = figures.events(jump, scene.unit_settings)
    assert [row.label for row in rows] == ["Crouch", "Takeoff", "Apex", "Landing", "Absorbed"]
    assert rows[2].measured.startswith("20") and rows[2].expected == "1.6 m"
    assert figures.span(jump) == "13–27"
