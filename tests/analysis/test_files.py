"""Which files a call names."""

import os

import pytest
from leapwright.analysis.files import Named, named_files

SUFFIXES = (".blend", ".json", ".csv")


def named(paths, leave=()):
    return [(found.path.name, found.reason) for found in named_files(paths, SUFFIXES, leave)]


def touch(folder, *names):
    for name in names:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).touch()


def test_a_folder_gives_its_shots_sorted_and_leaves_out_what_is_hidden_or_no_shot(tmp_path):
    touch(tmp_path, "tq020/b.BLEND", "tq010/a.json", "tq030.csv")
    touch(tmp_path, "notes.txt", ".git/x.json", ".tq.blend", "a.blend1")
    assert named([tmp_path]) == [("a.json", None), ("b.BLEND", None), ("tq030.csv", None)]


def test_a_file_given_twice_is_read_once_and_the_order_given_is_kept(tmp_path):
    touch(tmp_path, "a.json", "b.json")
    assert named([tmp_path / "b.json", tmp_path, tmp_path / "a.json"]) == [("b.json", None), ("a.json", None)]


def test_a_file_given_by_name_is_taken_whatever_it_is_called_or_if_it_is_not_there(tmp_path):
    assert named([tmp_path / "gone.blend", tmp_path / "a.txt"]) == [("gone.blend", None), ("a.txt", None)]
    assert named_files([tmp_path / "zero\0"], SUFFIXES) == [Named(tmp_path / "zero\0")]
    assert len(named_files([tmp_path / ("long" * 200)], SUFFIXES)) == 1


def test_files_to_leave_are_left(tmp_path):
    touch(tmp_path, "a.json", "audit.json")
    assert named([tmp_path], [tmp_path / "audit.json"]) == [("a.json", None)]


def test_an_empty_folder_and_one_without_shots_say_so(tmp_path):
    (tmp_path / "tq").mkdir()
    assert named([tmp_path / "tq"]) == [("tq", "the folder is empty")]
    touch(tmp_path / "tq", *(f"{i}.png" for i in range(6)))
    reason = "the folder holds no .blend, .csv, .json file; skipped: 0.png, 1.png, 2.png, 3.png and 2 more"
    assert named([tmp_path / "tq"]) == [("tq", reason)]


def test_a_folder_that_cannot_be_opened_is_named_beside_the_shots_of_the_others(tmp_path, monkeypatch):
    touch(tmp_path, "a/a.json", "closed/b.json")
    scan = os.scandir

    def guarded(path):  # tests may run as root, for whom no folder is closed
        if os.fspath(path).endswith("closed"):
            raise PermissionError(13, "Permission denied", os.fspath(path))
        return scan(path)

    monkeypatch.setattr(os, "scandir", guarded)
    reason = "the folder cannot be opened: permission denied"
    assert named([tmp_path]) == [("a.json", None), ("closed", reason)]


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="no symbolic links here")
def test_a_link_to_a_shot_is_the_shot(tmp_path):
    touch(tmp_path, "a.json")
    (tmp_path / "b.json").symlink_to(tmp_path / "a.json")
    assert named([tmp_path]) == [("a.json", None)]
