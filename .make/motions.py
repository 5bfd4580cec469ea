"""Fetch the recorded motions that the truth tests read, into build/data/pybullet_data/motions.

They are data files inside the pybullet wheel; the program itself is not wanted, so the wheel of one fixed
platform is fetched wherever this runs.
"""

import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

from environment import ROOT, run_pip, say

VERSION = "3.2.7"
INSIDE = "pybullet_data/data/motions/"
FOLDER = ROOT / "build" / "data" / "pybullet_data" / "motions"
PLATFORM = ["--python-version", "3.11", "--abi", "cp311", "--platform", "manylinux2014_x86_64"]
LOST = "the truth tests that read the recorded motions will fail"


def fetch(folder: Path) -> Path:
    log = ROOT / "build" / "log" / "motions.txt"
    pip = [sys.executable, "-m", "pip", "download", "--no-deps", "--only-binary=:all:"]
    run_pip([*pip, *PLATFORM, "--progress-bar", "raw", "--dest", str(folder), f"pybullet=={VERSION}"], log)
    return next(folder.glob("pybullet-*.whl"))


def main() -> None:
    stamp = FOLDER / "ready"
    if stamp.exists() and stamp.read_text(encoding="utf-8") == VERSION:
        return say("Ready: recorded motions")
    say(f"Fetching recorded motions: the data files of pybullet {VERSION} (103 MB once)")
    with tempfile.TemporaryDirectory() as scratch:
        try:
            wheel = fetch(Path(scratch))
        except (SystemExit, subprocess.SubprocessError) as failure:
            raise SystemExit(f"{failure}\nNo download: {LOST}") from None
        FOLDER.mkdir(parents=True, exist_ok=True)
        with zipfile.ZipFile(wheel) as archive:
            names = [name for name in archive.namelist() if name.startswith(INSIDE) and name.endswith(".txt")]
            for name in names:
                target = FOLDER / name.removeprefix(INSIDE)
                target.parent.mkdir(parents=True, exist_ok=True)
                with archive.open(name) as source, target.open("wb") as sink:
                    shutil.copyfileobj(source, sink)
    if not names:
        raise SystemExit(f"The wheel of pybullet {VERSION} holds no {INSIDE}: {LOST}")
    stamp.write_text(VERSION, encoding="utf-8")
    say(f"Ready: {len(names)} recorded motions in {FOLDER.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
