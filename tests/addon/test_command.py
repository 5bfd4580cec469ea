"""`leapwright audit` on .blend files: read by worker processes, each bad one a row."""

import json
from pathlib import Path

import bpy
import pytest
from leapwright.addon import command
from leapwright.addon.shots import quiet
from leapwright.addon.shots import shot as shots
from leapwright.analysis import Settings
from leapwright.analysis.day import DayRequest

from tests.addon.day import MOTION, keyed, link_barge, saved
from tests.analysis.day import track_file


def audited(tmp_path: Path, *argv: object) -> tuple[int, dict]:
    """Run the command; return its exit code and the shots it wrote, by their files' names."""
    out = tmp_path / "audit.json"
    code = command.main(["audit", *map(str, argv), "--json", str(out)])
    return code, {Path(shot["path"]).stem: shot for shot in json.loads(out.read_text())["shots"]}


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "dailies").mkdir()
    return tmp_path / "dailies"


def test_a_shot_is_read_audited_and_told_why_its_track_was_taken(folder, tmp_path):
    keyed()
    saved(folder / "tq010_crate.blend")
    code, found = audited(tmp_path, folder)
    shot = found["tq010_crate"]
    (track,) = shot["tracks"]
    (jump,) = track["jumps"]
    assert code == 0 and shot["status"] == "ok" and shot["fps"] == 24
    assert shot["gravity"] == pytest.approx(9.81)  # the scene's own, not the standard acceleration
    assert (track["name"], track["source"]) == ("Crate", "object")
    assert track["reason"] == "keyed object without a parent"
    truth = MOTION.truth[0]
    assert jump["takeoff"]["frame"] == pytest.approx(truth.takeoff, abs=0.01)
    assert jump["landing"]["frame"] == pytest.approx(truth.landing, abs=0.01)
    assert jump["jump_height"] == pytest.approx(truth.jump_height, rel=1e-5)


def test_every_bad_file_is_a_row_with_its_reason_and_the_good_ones_are_done(folder, tmp_path, capfd):
    saved(folder / "tq030_still.blend")
    keyed()
    whole = saved(folder / "tq010_crate.blend").read_bytes()
    squeezed = saved(folder / "tq020_squeezed.blend", compress=True).read_bytes()
    (folder / "tq040_half.blend").write_bytes(whole[: len(whole) // 2])
    (folder / "tq050_half_squeezed.blend").write_bytes(squeezed[: len(squeezed) // 2])
    (folder / "tq060_text.blend").write_text("Brindle jumps\n")
    (folder / "tq070_empty.blend").touch()
    (folder / "tq080_header.blend").write_bytes(whole[:12])
    code, found = audited(tmp_path, folder, folder / "tq090_gone.blend", "--jobs", 2)
    assert code == 3
    reasons = {name: shot.get("reason") for name, shot in found.items()}
    damaged = f"Blender {bpy.app.version_string} cannot open it: damaged, cut short or from a newer Blender ("
    assert [reasons.pop("tq010_crate"), reasons.pop("tq020_squeezed")] == [None, None]
    for name in ("tq040_half", "tq050_half_squeezed"):
        assert reasons.pop(name).startswith(damaged)
    assert reasons.pop("tq080_header")
    assert reasons == {
        "tq030_still": "it holds no animation: no keyed bone, and no keyed object without a parent",
        "tq060_text": "its content is no .blend file",
        "tq070_empty": "the file is empty",
        "tq090_gone": "there is no such file",
    }
    assert list(found) == sorted(found)
    assert "Read blend" not in capfd.readouterr().out  # what Blender prints does not get into the table


def test_a_track_is_named_and_one_that_is_not_there_says_what_is(folder, tmp_path):
    keyed("Crate")
    keyed("Moss")
    path = saved(folder / "tq010.blend")
    assert [track["name"] for track in audited(tmp_path, path)[1]["tq010"]["tracks"]] == ["Crate", "Moss"]
    assert [track["name"] for track in audited(tmp_path, path, "--track", "Moss")[1]["tq010"]["tracks"]] == ["Moss"]
    code, found = audited(tmp_path, path, "--track", "Brindle")
    assert code == 3
    assert found["tq010"]["reason"] == 'the scene "Scene" has no "Brindle" to audit; it has "Crate", "Moss"'


def test_gravity_is_the_scenes_unless_another_is_asked_for(folder, tmp_path):
    keyed()
    bpy.context.scene.gravity = (0, 0, -3.71)
    path = saved(folder / "tq010.blend")
    for asked, gravity in (([], 3.71), (["--gravity", "scene"], 3.71), (["--gravity", "moon"], 1.62)):
        assert audited(tmp_path, path, *asked)[1]["tq010"]["gravity"] == pytest.approx(gravity)


def test_a_scene_without_gravity_is_judged_by_earths_and_says_so(folder, tmp_path):
    keyed()
    bpy.context.scene.gravity = (0, 0, 0)
    shot = audited(tmp_path, saved(folder / "tq010.blend"))[1]["tq010"]
    assert shot["gravity"] == 9.80665
    assert shot["notes"] == ["the scene's gravity is nothing: Earth's taken"]


def test_what_may_make_positions_wrong_is_said(folder, tmp_path):
    thing = keyed()
    driver = thing.driver_add("rotation_euler", 0).driver
    driver.expression = "__import__('math').sin(frame)"  # not a simple expression, so it needs Python
    library = folder / "library.blend"
    link_barge(library)
    bpy.data.scenes.new("Take 2")
    path = saved(folder / "tq010.blend")
    library.unlink()
    notes = audited(tmp_path, path)[1]["tq010"]["notes"]
    assert any(note.startswith("scripts were not run (") for note in notes)
    assert any(note.startswith("missing libraries: ") and "library.blend" in note for note in notes)
    assert 'it holds 2 scenes: "Scene" was audited' in notes


def test_a_shot_whose_library_is_missing_says_so_where_nothing_is_left_to_audit(folder, tmp_path):
    library = folder / "library.blend"
    link_barge(library)
    path = saved(folder / "tq010.blend")
    library.unlink()
    code, told = audited(tmp_path, path)
    assert code == 3
    assert told["tq010"]["reason"].startswith("it holds no animation: ")
    assert "; missing libraries: " in told["tq010"]["reason"]


def test_a_running_blender_reads_the_shots_itself(folder, capfd):
    # `blender --command` hands over in background mode, which this Blender also is.
    keyed()
    paths = [saved(folder / "tq010.blend"), folder / "tq020_half.blend", track_file(folder / "tq030.json")]
    paths[1].write_bytes(paths[0].read_bytes()[:4000])
    quiet.flush()
    capfd.readouterr()
    found = [shot for _, shot in shots.audit_each(paths, DayRequest(Settings()))]
    assert [shot.status for shot in found] == ["ok", "unreadable", "ok"]
    assert found[0].tracks[0].name == "Crate" and "cannot open it" in found[1].reason
    quiet.flush()
    assert capfd.readouterr().out == ""


def test_without_blender_the_row_says_how_to_get_it_and_tracks_are_done(folder, tmp_path, monkeypatch):
    (folder / "tq010.blend").write_bytes(b"BLENDER")
    track_file(folder / "tq030.json")
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    code, found = audited(tmp_path, folder)
    assert code == 3 and found["tq010"]["reason"].startswith("it needs Blender: install it beside Leapwright with")
    assert found["tq030"]["status"] == "ok"


def test_blender_knows_the_command_while_it_is_registered(capfd):
    handle = command.register()
    try:
        assert not command.in_blender()  # here Blender is a Python module
    finally:
        command.unregister(handle)
