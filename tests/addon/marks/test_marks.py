"""Marks by hand are saved with the scene, are part of every reading of their track, and stay when other things change.
"""

import json
from contextlib import contextmanager
from pathlib import Path

import bpy
import pytest
from leapwright.addon import command
from leapwright.addon.marks import marks
from leapwright.addon.reading.sampling import EVALUATED
from leapwright.addon.shots.shot import read_shot
from leapwright.addon.sources.object import sample as sample_object
from leapwright.analysis import Marks
from leapwright.analysis.track import EVENTS

from tests.addon.scenery import empty, hopping

PINNED = Marks(takeoff=12.5, landing=28.0)
DENIED = Marks(no_jump=(100.0, 140.0))


@contextmanager
def switched_off():
    """Unregister the add-on's marks, as in a worker of the command."""
    marks.unregister()
    for cls in marks.CLASSES:
        bpy.utils.unregister_class(cls)
    try:
        yield
    finally:
        for cls in marks.CLASSES:
            bpy.utils.register_class(cls)
        marks.register()


@pytest.fixture
def crate(scene):
    return hopping(empty())


def test_marks_of_a_track_reach_its_sample_and_no_other(scene, crate):
    hopping(empty("Barrel"))
    marks.put(scene, "Crate", (PINNED, DENIED))
    assert sample_object(scene, crate).marks == (PINNED, DENIED)
    assert sample_object(scene, scene.objects["Barrel"]).marks == ()


def test_putting_marks_replaces_the_tracks_own_and_keeps_the_others(scene):
    marks.put(scene, "Crate", (PINNED,))
    marks.put(scene, "Barrel", (DENIED,))
    marks.put(scene, "Crate", (Marks(apex=20),))
    assert marks.of_track(scene, "Barrel") == ((DENIED,), ())
    assert marks.of_track(scene, "Crate") == ((Marks(apex=20.0),), ())
    marks.put(scene, "Crate", ())
    assert [entry.track for entry in marks.all_of(scene)] == ["Barrel"]


@pytest.mark.parametrize("event", EVENTS)
def test_every_event_can_be_kept(scene, event):
    marks.put(scene, "Crate", (Marks(**{event: -7.25}),))
    assert marks.of_track(scene, "Crate")[0] == (Marks(**{event: -7.25}),)


def test_frames_typed_out_of_order_are_left_out_with_a_sentence_and_stay_to_be_mended(scene, crate):
    marks.put(scene, "Crate", (PINNED,))
    scene.leapwright_marks[0].takeoff = 90.0
    track = sample_object(scene, crate)
    assert track.marks == ()
    assert track.notes == ("marks were left out: marks must rise from crouch to absorbed, not [90.0, 28.0]",)
    marks.put(scene, "Crate", (DENIED,))
    assert len(marks.all_of(scene)) == 2
    scene.leapwright_marks[0].takeoff = 12.5
    assert marks.of_track(scene, "Crate") == ((PINNED, DENIED), ())


def test_marks_are_saved_with_the_file(scene, crate, tmp_path):
    marks.put(scene, "Crate", (PINNED, DENIED))
    path = str(tmp_path / "tq010_crate.blend")
    bpy.ops.wm.save_as_mainfile(filepath=path)
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    assert marks.all_of(bpy.context.scene) == []
    bpy.ops.wm.open_mainfile(filepath=path)
    assert marks.of_track(bpy.context.scene, "Crate") == ((PINNED, DENIED), ())


def test_marks_reach_a_track_that_is_evaluated(scene, crate):
    crate.constraints.new("LIMIT_LOCATION")
    marks.put(scene, "Crate", (PINNED, DENIED))
    track = sample_object(scene, crate)
    assert track.notes == (EVALUATED,)
    assert track.marks == (PINNED, DENIED)
    assert marks.of_track(scene, "Crate") == ((PINNED, DENIED), ())


def saved_shot(scene, folder: Path) -> Path:
    marks.put(scene, "Crate", (PINNED,))
    path = folder / "tq010_crate.blend"
    bpy.ops.wm.save_as_mainfile(filepath=str(path), copy=True)
    return path


def test_a_shot_is_read_with_its_marks_though_the_add_on_is_off(scene, crate, tmp_path):
    path = saved_shot(scene, tmp_path)
    with switched_off():
        (track,) = read_shot(path).tracks
        assert not hasattr(bpy.types.Scene, "leapwright_marks")
    assert track.marks == (PINNED,)


def test_the_command_reads_pins_from_the_file_and_shows_them_as_pinned(scene, crate, tmp_path):
    path, out = saved_shot(scene, tmp_path), tmp_path / "audit.json"
    assert command.main(["audit", str(path), "--json", str(out)]) == 0
    (jump,) = json.loads(out.read_text())["shots"][0]["tracks"][0]["jumps"]
    assert (jump["takeoff"]["frame"], jump["landing"]["frame"]) == (12.5, 28)
    assert jump["takeoff"]["pinned"] is jump["landing"]["pinned"] is True
    assert "pinned" not in jump["apex"]
