"""A folder with everything that can go wrong: every sound shot is done, every bad one is named, no script in a file
runs."""

import html
import json
import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

import bpy
import pytest

from tests.addon.day import keyed, link_barge, saved

SCRIPT = "<script>alert(1)<script>"
NAMES = (
    SCRIPT, "with spaces", "with 'quotes\"", "goat 🐐", "ä" * 100, "tq" + "0" * 198, "-flag", "=1+1", "$(touch x)",
    "two\nlines", "\x1b[31mred", "\u202egnorw", os.fsdecode(b"no text \xff"), "&lt;b&gt;", "%s{0}",
)  # fmt: skip
"""Every kind of name that a file may have; 200 letters, or 100 of ä, and 255 bytes are the most (Linux, NAME_MAX)."""
CALL = "from leapwright.addon.command import command_line; command_line()"


def good(folder: Path) -> Path:
    return saved(folder / "tq010.blend")


def scripted(folder: Path, mark: Path) -> None:
    """Save a shot whose driver and text block would leave a file behind if they ran."""
    act = f"open({str(mark)!r}, 'w').close()"
    bpy.data.objects["Crate"].driver_add("scale", 0).driver.expression = f"len(str({act[:-8]})) * 0 + 1"
    text = bpy.data.texts.new("start.py")
    text.write(act)
    text.use_module = True
    saved(folder / "tq020_scripts.blend")
    bpy.data.objects["Crate"].driver_remove("scale", 0)
    bpy.data.texts.remove(text)


def linked(folder: Path) -> None:
    """Save a shot whose linked library is missing."""
    library = folder / "gone.blend"
    link_barge(library)
    saved(folder / "tq030_linked.blend")
    library.unlink()


@pytest.fixture
def folder(tmp_path):
    """Make the folder and, beside it, what its links point to."""
    inside = tmp_path / "dailies"
    inside.mkdir()
    keyed()
    whole = good(inside).read_bytes()
    scripted(inside, tmp_path / "mark")
    linked(inside)
    for name in NAMES:
        (inside / f"{name}.blend").write_bytes(whole)
    (inside / "tq040_half.blend").write_bytes(whole[: len(whole) // 2])
    (inside / "tq041_noise.blend").write_bytes(os.urandom(5000))
    (inside / "tq042_later.blend").write_bytes(b"BLENDER17-01v9912" + whole[17:])
    (inside / "tq043_empty.blend").touch()
    (inside / "tq044_deep.json").write_text("[" * 100_000)
    (tmp_path / "elsewhere.blend").write_bytes(whole)
    (inside / "tq050_link.blend").symlink_to(tmp_path / "elsewhere.blend")
    (inside / "tq051_dangling.blend").symlink_to(tmp_path / "nowhere.blend")
    (inside / "tq052_loop").symlink_to(inside)
    os.mkfifo(inside / "tq053_pipe.blend")
    return inside


BAD = {"tq040_half", "tq041_noise", "tq042_later", "tq043_empty", "tq044_deep", "tq051_dangling", "tq053_pipe"}


def workers(process: subprocess.Popen) -> list[int]:
    """Return the process's workers: its children, without the resource tracker of `multiprocessing`."""
    tasks = Path(f"/proc/{process.pid}/task").glob("*/children")
    children = [int(pid) for children in tasks for pid in children.read_text().split()]
    return [pid for pid in children if b"resource_tracker" not in Path(f"/proc/{pid}/cmdline").read_bytes()]


def run(folder: Path, out: Path, harms: dict[str, int] | None = None) -> tuple[int, dict]:
    """Audit a folder; when a count of shots is done, send a worker a signal. Return the code and the document."""
    words = ["audit", folder, "--jobs", "2", "--timeout", "8", "--report", out / "report", "--json", out / "a.json"]
    words += ["--csv", out / "a.csv", "--junit", out / "a.xml", "--no-cache"]
    call = [sys.executable, "-c", CALL, *map(str, words)]
    process = subprocess.Popen(call, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, cwd=folder)
    ending = threading.Timer(150, process.kill)
    ending.start()
    for line in process.stderr:
        number = (harms or {}).pop(line.partition("/")[0], None)
        if number is not None:
            os.kill(workers(process)[0], number)
    code = process.wait()
    ending.cancel()
    return code, json.loads((out / "a.json").read_text())


def test_every_sound_shot_is_done_and_every_bad_one_is_named(folder, tmp_path):
    code, document = run(folder, tmp_path)
    found = {Path(shot["path"]).stem: shot for shot in document["shots"]}
    assert code == 3
    assert {name for name, shot in found.items() if shot["status"] == "unreadable"} == BAD
    assert all(found[name]["reason"] for name in BAD)
    assert {*NAMES, "tq010", "tq020_scripts", "tq030_linked", "tq050_link"} == set(found) - BAD
    assert all(found[name]["tracks"][0]["jumps"] for name in NAMES)
    assert not (tmp_path / "mark").exists() and not list(folder.glob("x"))
    assert any("scripts were not run" in note for note in found["tq020_scripts"]["notes"])
    assert any("missing libraries" in note for note in found["tq030_linked"]["notes"])
    page = (tmp_path / "report" / "index.html").read_text()
    assert SCRIPT not in page and html.escape(SCRIPT) in page
    assert not {letter for letter in page if not letter.isprintable()} - {"\n", "\u00ad"}
    assert page.endswith("</html>\n") and sorted(one.name for one in tmp_path.iterdir() if one.is_file()) == [
        "a.csv", "a.json", "a.xml", "elsewhere.blend"
    ]  # fmt: skip


@pytest.mark.skipif(not Path("/proc/self/task").is_dir(), reason="workers are found in /proc, as on Linux")
def test_a_worker_killed_and_one_that_hangs_cost_one_shot_each(tmp_path):
    folder = tmp_path / "dailies"
    folder.mkdir()
    keyed()
    whole = good(folder).read_bytes()
    for number in range(40):
        (folder / f"tq{number:03}.blend").write_bytes(whole)
    (tmp_path / "out").mkdir()
    code, document = run(folder, tmp_path / "out", {"[6": signal.SIGKILL, "[14": signal.SIGSTOP})
    reasons = [shot["reason"] for shot in document["shots"] if shot["status"] == "unreadable"]
    assert code == 3 and len(document["shots"]) == 40
    # On a busy machine the one that is killed may be one that is only starting.
    killed = {f"{what} (signal 9)" for what in ("the process that opened it crashed",
                                                "Blender could not be started: its process ended")}  # fmt: skip
    assert len(reasons) == 2 and "it was not done within 8 s (--timeout)" in reasons and killed & set(reasons)
    paths = [shot["path"] for shot in document["shots"]]
    assert paths == sorted(paths)  # in the order in which they finished


def on_a_disk(options: str, folder: Path, words: list[str], listing: Path) -> subprocess.CompletedProcess:
    """Run the command while a disk of its own lies at a folder; then list what is there, hidden or not.

    The disk is there for that process alone (unshare(1)), and goes with it.
    """
    script = (
        'mount -t tmpfs -o "$1" tmpfs "$2" || exit 77; older="$3"; listing="$4"; disk="$2"; shift 4; '
        'cp "$older" "$disk"/index.html 2>/dev/null; "$@"; code=$?; ls -A "$disk" > "$listing"; '
        'cmp -s "$older" "$disk"/index.html && echo older >> "$listing"; exit $code'
    )
    older = listing.with_name("older.html")
    older.write_text('<!DOCTYPE html>\n<html lang=en><head><meta charset=utf-8>'
                     '<meta name=generator content="Leapwright 0.1.0">\n')  # fmt: skip
    alone = ["unshare", "-rm", "sh", "-c", script, "sh", options, folder, older, listing]
    words = [*alone, sys.executable, "-c", CALL, *words]
    return subprocess.run(list(map(str, words)), capture_output=True, text=True, timeout=150)


@pytest.fixture
def few(tmp_path):
    """Make three sound shots, a bad one, and an empty folder for the disk."""
    can = subprocess.run(["sh", "-c", "unshare -rm mount -t tmpfs tmpfs /mnt"], capture_output=True)
    if can.returncode:
        pytest.skip(f"no disk of its own can be laid here: {can.stderr.decode().strip()}")
    inside = tmp_path / "dailies"
    inside.mkdir()
    keyed()
    whole = good(inside).read_bytes()
    for name in ("tq020", "tq030"):
        (inside / f"{name}.blend").write_bytes(whole)
    (inside / "tq040_half.blend").write_bytes(whole[: len(whole) // 2])
    (tmp_path / "disk").mkdir()
    return tmp_path


def test_on_a_full_disk_the_older_page_stays_and_what_goes_elsewhere_is_written(few):
    words = ["audit", few / "dailies", "--no-cache", "--report", few / "disk", "--json", few / "a.json"]
    done = on_a_disk("size=8k", few / "disk", words, few / "listing")
    assert done.returncode == 2 and "Traceback" not in done.stderr
    assert f"{few / 'disk' / 'index.html'} cannot be written: no space left on device" in done.stderr
    assert (few / "listing").read_text().split() == ["index.html", "older"]
    assert [shot["status"] for shot in json.loads((few / "a.json").read_text())["shots"]] == ["ok"] * 3 + ["unreadable"]


def test_a_read_only_folder_is_refused_before_a_shot_is_opened(few):
    words = ["audit", few / "dailies", "--no-cache", "--report", few / "disk", "--json", few / "a.json"]
    done = on_a_disk("ro", few / "disk", words, few / "listing")
    assert done.returncode == 2 and "[1/4]" not in done.stderr and "Traceback" not in done.stderr
    assert f"{few / 'disk' / 'index.html'} cannot be written: no permission in {few / 'disk'}" in done.stderr
    assert (few / "listing").read_text() == "" and not (few / "a.json").exists()
