"""Motion files by the command: what Blender's own exporters write is read back as it was.

The outside reference is the host: its exporters, and `frame_set` in the scene that was exported. Exporters and
importers run in processes of their own, the importers in a worker, as the command runs them.
"""

import json
from pathlib import Path

import bpy
import numpy as np
import pytest
from leapwright.addon import command
from leapwright.addon.shots.pool import ask
from leapwright.analysis import SourceError
from leapwright.analysis.shot import Reading

from tests.addon.constrained import limb
from tests.addon.day import saved
from tests.addon.exporting import export
from tests.addon.scenery import armature, key, read_out
from tests.addon.skeletons import recording
from tests.analysis import day

MOTION = day.hop(3, fps=30.0)
FRAMES = MOTION.track.frames
FIRST, LAST = int(FRAMES[0]), int(FRAMES[-1])


@pytest.fixture(scope="module")
def exported(tmp_path_factory, leapwright_registered):
    """A rig whose hips make the hop of MOTION, a key a frame, in each format; where the host shows them; the folder."""
    folder = tmp_path_factory.mktemp("motion")
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    scene = bpy.context.scene
    scene.render.fps, scene.frame_start, scene.frame_end = 30, FIRST, LAST
    rig = limb(scene)
    rig.animation_data_clear()
    bpy.data.actions.remove(bpy.data.actions[0])
    rig.data.bones["hips"].use_local_location = False
    key(rig.pose.bones["hips"], zip(FRAMES, MOTION.track.positions, strict=True))
    rig.select_set(True)
    bpy.context.view_layer.objects.active = rig
    export(saved(folder / "moss.blend"), FIRST, LAST, *(folder / f"moss.{kind}" for kind in ("bvh", "fbx", "glb")))
    return read_out(rig, "hips", frames=FRAMES), folder


def read_shot(path: Path) -> Reading:
    return ask((".shot:read_shot", {"path": path}), timeout=120)


@pytest.mark.parametrize("suffix", [".bvh", ".fbx", ".glb"])
def test_what_the_host_exports_is_read_back(exported, suffix):
    shown, folder = exported
    reading = read_shot(folder / f"moss{suffix}")
    (track,) = reading.tracks
    assert track.name.endswith("hips") and track.fps == pytest.approx(30, rel=1e-4)
    assert len(track.frames) == len(FRAMES)
    np.testing.assert_allclose(track.heights, shown[:, 2], atol=2e-4)
    assert reading.gravity == pytest.approx(9.81)


@pytest.mark.parametrize("suffix", [".bvh", ".fbx", ".glb"])
def test_the_command_audits_it_and_takes_a_bone_by_name(exported, tmp_path, suffix):
    path = exported[1] / f"moss{suffix}"
    code = command.main(["audit", str(path), "--track", "bone:thigh", "--json", str(tmp_path / "audit.json")])
    (shot,) = json.loads((tmp_path / "audit.json").read_text())["shots"]
    assert code == 0 and shot["status"] == "ok"
    (track,) = shot["tracks"]
    (jump,) = track["jumps"]
    assert track["name"].endswith("thigh") and jump["jump_height"] == pytest.approx(
        MOTION.truth[0].jump_height, rel=0.02
    )


@pytest.mark.parametrize(
    ("size", "unit", "meters"),
    [(1.7, None, 1), (170, "centimeters", 0.01), (67, "inches", 0.0254), (1700, "millimeters", 0.001)],
)
def test_a_recording_is_read_in_the_unit_that_makes_its_skeleton_a_person(scene, tmp_path, size, unit, meters):
    reading = read_shot(recording(tmp_path / "moss.bvh", size))
    (track,) = reading.tracks
    assert np.ptp(track.heights) == pytest.approx(0.2 * size * meters, rel=0.01)
    assert track.fps == pytest.approx(120, rel=1e-3)
    assert reading.notes == ((f"read in {unit}: its skeleton is {size:.0f} units tall",) if unit else ())


def test_a_skeleton_of_no_known_unit_is_said(scene, tmp_path):
    assert read_shot(recording(tmp_path / "moss.bvh", 20)).notes == (
        "its unit is not known: a skeleton 20 units tall is read as meters",
    )


def test_a_skeleton_along_z_is_stood_up(scene, tmp_path):
    reading = read_shot(recording(tmp_path / "moss.bvh", 1.7, tall=2))
    assert np.ptp(reading.tracks[0].heights) == pytest.approx(0.34, rel=0.01)
    assert reading.notes == ("its skeleton stands along z: z taken as up, not y",)


@pytest.mark.parametrize("suffix", [".bvh", ".fbx", ".glb"])
def test_a_file_that_the_importer_refuses_is_a_sentence(exported, tmp_path, suffix):
    whole = (exported[1] / f"moss{suffix}").read_bytes()
    (tmp_path / f"half{suffix}").write_bytes(whole[: len(whole) // 2])
    (tmp_path / f"text{suffix}").write_text("Brindle jumps\n")
    (tmp_path / f"empty{suffix}").touch()
    refusal = rf"^Blender's {suffix[1:]} importer refuses it: damaged, cut short or of another kind \([^\n]+\)$"
    for name in ("half", "text")[suffix == ".bvh" :]:  # a .bvh is cut short between two frames, mostly
        with pytest.raises(SourceError, match=refusal) as refused:
            read_shot(tmp_path / f"{name}{suffix}")
        assert str(tmp_path) not in str(refused.value)
    with pytest.raises(SourceError, match=r"^the file is empty$"):
        read_shot(tmp_path / f"empty{suffix}")
    with pytest.raises(SourceError, match=r"^it cannot be opened: no such file"):
        read_shot(tmp_path / f"gone{suffix}")


def test_a_recording_that_is_cut_short_is_read_as_far_as_it_goes_and_said(scene, tmp_path):
    path = recording(tmp_path / "moss.bvh", 1.7)
    path.write_text("".join(path.read_text().splitlines(keepends=True)[:-10]))
    reading = read_shot(path)
    assert len(reading.tracks[0].frames) == 30
    assert reading.notes == ("it is cut short: 30 of its 40 frames are there",)


def test_a_model_without_motion_and_a_folder_of_models_are_told(scene, tmp_path):
    armature()
    export(saved(tmp_path / "still.blend"), 1, 2, tmp_path / "still.glb")
    (tmp_path / "still.blend").unlink()
    with pytest.raises(SourceError, match="it holds no animation"):
        read_shot(tmp_path / "still.glb")
    assert command.main(["audit", str(tmp_path), "--json", str(tmp_path / "audit.json")]) == 3
    (shot,) = json.loads((tmp_path / "audit.json").read_text())["shots"]
    assert "holds no" in shot["reason"] and ".bvh" in shot["reason"]
