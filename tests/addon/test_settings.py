"""The settings of the shot are handed to the analysis as World and Limits."""

import bpy
import pytest
from leapwright.addon import settings as chosen
from leapwright.addon.scene import settings_of
from leapwright.analysis.house import PRESETS, changed
from leapwright.analysis.limits import Limits
from leapwright.analysis.settings import Settings
from leapwright.analysis.world import GRAVITIES, JUMPERS, World


def test_an_untouched_scene_asks_for_the_defaults(scene):
    assert settings_of(scene) == Settings(world=World(gravity=9.81), limits=Limits())


@pytest.mark.parametrize("world", GRAVITIES)
def test_every_world_can_be_chosen(scene, world):
    scene.leapwright.gravity = world
    assert settings_of(scene).world.gravity == GRAVITIES[world]


@pytest.mark.parametrize("kind", JUMPERS)
def test_every_kind_can_be_chosen(scene, kind):
    scene.leapwright.kind = kind
    assert settings_of(scene).world.kind == kind


@pytest.mark.parametrize("preset", PRESETS)
def test_every_preset_of_limits_can_be_chosen(scene, preset):
    scene.leapwright.judge = preset
    assert settings_of(scene).limits == PRESETS[preset].limits
    scene.leapwright.use_smallest_hop, scene.leapwright.smallest_hop = True, 0.2
    assert changed(settings_of(scene).limits) == pytest.approx(PRESETS[preset].values | {"smallest_hop": 0.2})


def test_what_is_typed_is_in_the_scenes_units(scene):
    scene.unit_settings.scale_length = 0.01
    scene.leapwright.gravity, scene.leapwright.gravity_custom = "custom", 300.0
    scene.leapwright.use_smallest_hop, scene.leapwright.smallest_hop = True, 20.0
    scene.leapwright.step = "2"
    told = settings_of(scene)
    assert told.world.gravity == pytest.approx(3.0)
    assert told.limits.smallest_hop == pytest.approx(0.2)
    assert told.world.step == 2


def test_a_hop_set_by_hand_counts_only_when_switched_on(scene):
    scene.leapwright.smallest_hop = 3.0
    assert settings_of(scene).limits == Limits()


@pytest.mark.parametrize("items", [chosen.FOLLOW, chosen.GRAVITY_ITEMS, chosen.KIND])
def test_numbers_that_files_keep_tell_the_items_apart(items):
    assert len({item[-1] for item in items}) == len(items)


def test_a_file_that_was_saved_under_a_sources_former_name_is_still_read():
    """The number that 0.1.0 of 27 November wrote: CRC-32 of "centre_of_mass", its low 28 bits (zlib)."""
    assert {item[0]: item[-1] for item in chosen.FOLLOW}["center_of_mass"] == 22698000


def test_settings_are_saved_with_the_file(scene, tmp_path):
    scene.leapwright.gravity, scene.leapwright.kind, scene.leapwright.follow = "mars", "cat", "bone"
    path = str(tmp_path / "shot.blend")
    bpy.ops.wm.save_as_mainfile(filepath=path)
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    bpy.ops.wm.open_mainfile(filepath=path)
    kept = bpy.context.scene.leapwright
    assert (kept.gravity, kept.kind, kept.follow) == ("mars", "cat", "bone")
