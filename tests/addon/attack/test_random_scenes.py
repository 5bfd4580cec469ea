"""Audits of seeded scenes that nobody would build: no traceback, only finite numbers, nothing changed."""

import math
from dataclasses import replace

import bpy
import pytest
from leapwright.addon import host, results

from tests.addon.attack.audits import attack
from tests.addon.attack.numbers import no_numbers
from tests.addon.attack.whole_file import changes, whole_file
from tests.addon.scenery import empty, hopping

SCENES = 40
"""`make attack` runs as many others as are asked for."""


@pytest.fixture(scope="module")
def attacked(leapwright_registered):
    return [attack(seed) for seed in range(SCENES)]


def test_no_audit_ends_in_a_traceback_says_what_is_no_number_or_changes_the_file(attacked):
    assert [(one.seed, one.faults) for one in attacked if one.faults] == []


@pytest.mark.parametrize(
    "change",
    [
        lambda thing: setattr(thing, "hide_viewport", True),
        lambda thing: setattr(thing.animation_data.drivers[0].driver, "is_valid", False),
        lambda thing: setattr(host.curves_of(thing.animation_data)[0].keyframe_points[1], "co", (8.0, 0.1)),
        lambda thing: thing.constraints.new("COPY_LOCATION"),
        lambda thing: thing.__setitem__("tide", 1.0),
        lambda thing: bpy.context.scene.frame_set(3),
    ],
    ids=["hidden", "driver", "key", "constraint", "property", "frame"],
)
def test_a_change_of_any_kind_would_be_seen(scene, change):
    thing = hopping(empty())
    thing.driver_add("scale", 0).driver.expression = "1.0"
    bpy.context.view_layer.update()
    before = whole_file()
    assert changes(before, whole_file()) == []
    change(thing)
    assert changes(before, whole_file())


def test_a_figure_that_is_no_number_would_be_seen(scene):
    bpy.context.view_layer.objects.active = hopping(empty())
    assert bpy.ops.leapwright.audit_jump() == {"FINISHED"}
    jump = results.latest(scene).audit.jumps[0]
    assert no_numbers(jump) == []
    unknown = replace(jump.flight, height=replace(jump.flight.height, error=math.nan))
    assert no_numbers(replace(jump, flight=unknown)) == ["no number: jump_height_error"]
    takeoff = replace(jump.takeoff, frame=math.inf)
    assert no_numbers(replace(jump, takeoff=takeoff)) == ["no number: takeoff"]


def test_most_of_the_scenes_hold_something_to_audit(attacked):
    # Otherwise the test would try little.
    assert sum(one.tracks > 0 for one in attacked) > 0.6 * SCENES
