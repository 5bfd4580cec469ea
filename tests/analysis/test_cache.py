"""The cache gives back nothing that has changed since, whatever it is that changed."""

import os
from dataclasses import replace
from pathlib import Path

import pytest
from leapwright.analysis import Limits, Settings
from leapwright.analysis.cache import Cache, cache_folder, made_by, made_with
from leapwright.analysis.day import DayRequest

OLD = 1_700_000_000_000_000_000
SHOT = {"path": "as/it/was.blend", "status": "ok", "tracks": []}
WAY = DayRequest(Settings())


@pytest.fixture
def cache(tmp_path):
    return Cache(tmp_path / "cache", "0.1.0")


def kept(cache: Cache, path: Path, needs: list[str] | None = None) -> None:
    """Ask for a shot, in vain, and keep it as a run does."""
    assert cache.get(path, WAY) is None
    cache.keep(path, WAY, SHOT, needs or [])


def written(path: Path, text: str, when: int = OLD) -> Path:
    path.write_text(text)
    os.utime(path, ns=(when, when))
    return path


def test_an_unchanged_file_is_found_under_the_path_it_is_asked_by(cache, tmp_path):
    path = written(tmp_path / "tq010.json", "one")
    kept(cache, path)
    assert cache.get(path, WAY) == {**SHOT, "path": str(path)}
    assert Cache(cache.folder, "0.1.0").get(path, WAY) is not None


def test_a_copy_of_the_same_content_with_another_time_still_counts(cache, tmp_path):
    path = written(tmp_path / "tq010.json", "one")
    kept(cache, path)
    written(path, "one", OLD + 10**12)
    assert cache.get(path, WAY) is not None


@pytest.mark.parametrize("when", [OLD, OLD + 10**12])
def test_other_content_does_not_even_of_the_same_length(cache, tmp_path, when):
    path = written(tmp_path / "tq010.json", "one")
    kept(cache, path)
    written(path, "longer", when)
    assert cache.get(path, WAY) is None
    if when != OLD:  # same size and same time cannot be told from an unchanged file
        written(path, "two", when)
        assert cache.get(path, WAY) is None


def test_a_file_changed_within_the_clocks_grain_is_seen(cache, tmp_path):
    path = tmp_path / "tq010.json"
    path.write_text("one")
    now = path.stat().st_mtime_ns
    kept(cache, path)
    written(path, "two", now)
    cache.digests.clear()  # as a later run does
    assert cache.get(path, WAY) is None


def test_what_a_shot_depends_on_counts_like_the_shot(cache, tmp_path):
    path, library = written(tmp_path / "tq010.json", "one"), written(tmp_path / "brindle.json", "goat")
    gone = tmp_path / "missing.blend"
    kept(cache, path, [str(library), str(gone)])
    assert cache.get(path, WAY) is not None
    written(library, "frog!")
    kept(cache, path, [str(library), str(gone)])
    gone.touch()
    assert cache.get(path, WAY) is None


@pytest.mark.parametrize(
    "other",
    [
        replace(WAY, gravity=1.62),
        replace(WAY, track="Moss"),
        replace(WAY, settings=replace(Settings(), limits=replace(Limits(), push_fix=0.6))),
    ],
)
def test_other_settings_are_another_result(cache, tmp_path, other):
    path = written(tmp_path / "tq010.json", "one")
    kept(cache, path)
    assert cache.get(path, other) is None


def test_another_version_makes_other_results(cache, tmp_path):
    path = written(tmp_path / "tq010.json", "one")
    kept(cache, path)
    assert Cache(cache.folder, "0.2.0").get(path, WAY) is None
    assert made_by() == made_by() and made_by().startswith(f"{made_with()}, ")


def test_a_shot_saved_while_it_was_read_is_not_kept(cache, tmp_path):
    path = written(tmp_path / "tq010.json", "one")
    assert cache.get(path, WAY) is None
    written(path, "two", OLD + 10**12)  # the entry was made of "one"
    cache.keep(path, WAY, SHOT)
    assert cache.get(path, WAY) is None


def test_what_could_not_be_read_is_tried_again(cache, tmp_path):
    path = written(tmp_path / "tq010.json", "one")
    cache.keep(path, WAY, {**SHOT, "status": "unreadable"})
    assert cache.get(path, WAY) is None


@pytest.mark.parametrize("damage", ["", "{", "[]", '{"made": 1}', '{"made": "x", "stamps": [[1]], "shot": {}}'])
def test_a_damaged_entry_is_as_if_it_were_not_there(cache, tmp_path, damage):
    path = written(tmp_path / "tq010.json", "one")
    kept(cache, path)
    (entry,) = cache.folder.iterdir()
    entry.write_text(damage)
    assert cache.get(path, WAY) is None


def test_a_folder_closed_to_us_keeps_nothing_and_stops_nothing(tmp_path):
    (tmp_path / "cache").write_text("a file")
    cache = Cache(tmp_path / "cache", "0.1.0")
    path = written(tmp_path / "tq010.json", "one")
    kept(cache, path)
    cache.tidy()
    assert cache.closed and cache.get(path, WAY) is None


def test_entries_that_nobody_asked_for_in_two_months_go(cache, tmp_path):
    path = written(tmp_path / "tq010.json", "one")
    kept(cache, path)
    (entry,) = cache.folder.iterdir()
    os.utime(entry, ns=(OLD, OLD))
    cache.tidy()
    assert not entry.exists()


def test_the_folder_is_where_the_system_wants_caches(monkeypatch, tmp_path):
    # XDG Base Directory Specification 0.8: $XDG_CACHE_HOME, else $HOME/.cache.
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert cache_folder() == tmp_path / "leapwright"
    monkeypatch.delenv("XDG_CACHE_HOME")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert cache_folder() == tmp_path / ".cache" / "leapwright"
