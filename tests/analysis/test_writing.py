"""A file is written whole or not at all, whatever goes wrong on the way."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest
from leapwright.analysis.writing import beside, write_whole

TEXT = "Brindle hops\n" * 1000

# A file may grow to so many bytes and no further, as where the disk is full (POSIX.1-2017, setrlimit).
FULL = """
import resource, sys
from pathlib import Path
from leapwright.analysis.writing import write_whole
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]),) * 2)
try:
    write_whole(Path(sys.argv[1]), "Brindle hops\\n" * 1000)
except OSError as error:
    sys.exit(error.errno)
"""


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.rglob("*"))


@pytest.mark.parametrize("room", [0, 1, 4096, len(TEXT) - 1, len(TEXT)])
def test_on_a_full_disk_the_older_file_stays_and_nothing_else(tmp_path, room):
    target = tmp_path / "audit.json"
    target.write_text("older")
    done = subprocess.run([sys.executable, "-c", FULL, str(target), str(room)], capture_output=True, text=True)
    whole = room == len(TEXT)
    assert done.returncode == (0 if whole else errno.EFBIG), done.stderr
    assert target.read_text() == (TEXT if whole else "older") and names(tmp_path) == ["audit.json"]


def test_folders_that_were_made_for_a_file_go_with_it(tmp_path):
    target = tmp_path / "report" / "today" / "index.html"
    done = subprocess.run([sys.executable, "-c", FULL, str(target), "10"], capture_output=True)
    assert done.returncode == errno.EFBIG and names(tmp_path) == []
    write_whole(target, TEXT)
    assert names(tmp_path) == ["index.html", "report", "today"]


def test_what_was_not_written_as_it_should_be_is_refused(tmp_path, monkeypatch):
    monkeypatch.setattr(Path, "read_bytes", lambda path: b"half")  # a disk that forgets
    with pytest.raises(OSError, match=os.strerror(errno.EIO)):
        write_whole(tmp_path / "audit.json", TEXT)
    assert names(tmp_path) == []


def test_whoever_reads_meanwhile_has_the_older_file_or_the_whole_new_one(tmp_path):
    target = tmp_path / "audit.json"
    target.write_text("older")
    with target.open() as reader, beside(target) as part:
        part.write_text(TEXT)
        assert target.read_text() == "older"
    assert target.read_text() == TEXT and reader.closed


def test_an_interruption_takes_back_what_was_begun_and_what_blender_began(tmp_path):
    with pytest.raises(KeyboardInterrupt), beside(tmp_path / "new.blend") as part:
        part.write_text("half")
        Path(f"{part}@").write_text("half of a half")
        raise KeyboardInterrupt
    assert names(tmp_path) == []


def test_where_nothing_is_written_the_older_file_stays(tmp_path):
    (tmp_path / "new.blend").write_text("older")
    with beside(tmp_path / "new.blend") as part:
        assert part.suffix == ".blend" and part.name.startswith(".")
    assert (tmp_path / "new.blend").read_text() == "older"


def test_a_link_stays_one_and_rights_stay_as_they_were(tmp_path):
    (tmp_path / "shared").mkdir()
    (tmp_path / "shared" / "audit.json").write_text("older")
    (tmp_path / "shared" / "audit.json").chmod(0o640)
    (tmp_path / "audit.json").symlink_to(tmp_path / "shared" / "audit.json")
    write_whole(tmp_path / "audit.json", TEXT)
    assert (tmp_path / "audit.json").is_symlink() and (tmp_path / "shared" / "audit.json").read_text() == TEXT
    assert (tmp_path / "shared" / "audit.json").stat().st_mode & 0o777 == 0o640


def test_a_pipe_is_written_to_as_it_is(tmp_path):
    os.mkfifo(tmp_path / "audit.json")
    read = "import sys; sys.stdout.write(open(sys.argv[1]).read())"
    with subprocess.Popen([sys.executable, "-c", read, str(tmp_path / "audit.json")], stdout=subprocess.PIPE,
                          text=True) as reader:  # fmt: skip
        write_whole(tmp_path / "audit.json", TEXT)
        assert reader.communicate(timeout=30)[0] == TEXT
    assert (tmp_path / "audit.json").is_fifo()


