"""Review Shots audits a folder in a process of its own and leaves this file as it was."""

import bpy
import pytest
from leapwright.addon.shots import review
from leapwright.addon.shots.review import Review

from tests.addon.day import keyed, saved
from tests.analysis.day import track_file


@pytest.fixture
def folder(scene, tmp_path):
    (tmp_path / "dailies").mkdir()
    keyed()
    saved(tmp_path / "dailies" / "tq010.blend")
    return tmp_path / "dailies"


def test_a_folder_is_audited_and_its_page_written_while_this_file_stays_as_it_is(folder):
    before = bpy.data.filepath, len(bpy.data.objects), bpy.context.scene.frame_current
    assert bpy.ops.leapwright.review_shots(directory=str(folder)) == {"FINISHED"}
    page = folder / "leapwright_review" / "index.html"
    assert "tq010" in page.read_text(encoding="utf-8")
    assert before == (bpy.data.filepath, len(bpy.data.objects), bpy.context.scene.frame_current)
    assert bpy.ops.leapwright.review_shots(directory=str(folder)) == {"FINISHED"}  # a second run replaces its own page


def test_a_folder_that_is_not_there_is_refused(scene, tmp_path):
    with pytest.raises(RuntimeError, match="There is no such folder"):
        bpy.ops.leapwright.review_shots(directory=str(tmp_path / "none"))


def test_a_show_file_that_is_not_sound_is_told_in_its_own_words(folder):
    (folder / "leapwright.toml").write_text('kind = "dragon"\n')
    with pytest.raises(RuntimeError, match=r"leapwright\.toml, line 1, kind: must be one of"):
        bpy.ops.leapwright.review_shots(directory=str(folder))


def test_a_review_that_is_stopped_leaves_no_process_and_no_page(tmp_path):
    for number in range(300):
        track_file(tmp_path / f"tq{number:03}.json")
    review = Review(tmp_path)
    review.start()
    while not review.look() and not review.done:
        pass
    assert review.total == 300
    review.stop()
    assert review.process.poll() is not None and not review.page.exists()


def test_a_blender_that_reviews_has_the_extension_though_preferences_were_not_saved(tmp_path, monkeypatch):
    monkeypatch.setattr(review, "in_blender", lambda: True)
    _program, *words = review.call_of(tmp_path, tmp_path / "report")
    assert words[:5] == ["--background", "--addons", "leapwright", "--command", "leapwright"]
    assert words[5:] == ["audit", str(tmp_path), "--report", str(tmp_path / "report")]
