"""What a day costs: one run for all shots against a process a shot, a second run from the cache, memory, the page.

Shots are copies of one small rig's leap, with some bytes behind their ends, so that no two are alike.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from .table import lines

SHOTS, ALONE = 200, 6
CALL = "from leapwright.addon.command import command_line; command_line()"
NAIVE = """
import sys, bpy
from leapwright.analysis import Track, audit_track
bpy.ops.wm.open_mainfile(filepath=sys.argv[1])
scene, rig = bpy.context.scene, bpy.data.objects["Brindle"]
frames = range(scene.frame_start, scene.frame_end + 1)
points = []
for frame in frames:
    scene.frame_set(frame)
    points.append(tuple(rig.matrix_world @ rig.pose.bones["root"].head))
audit_track(Track("root", scene.render.fps, frames, points))
"""
"""What one would write in an afternoon: open the shot, step its frames, audit."""


def day(folder: Path, count: int) -> None:
    """Build shots of one leap, of other content each."""
    code = (
        "import bpy, sys; from pathlib import Path; from tests.quay.build import build;"
        "from tests.quay.shots import SHOTS; build(SHOTS[1], Path(sys.argv[1]))"
    )
    subprocess.run([sys.executable, "-c", code, str(folder)], check=True, stdout=subprocess.DEVNULL)
    (first,) = folder.glob("*.blend")
    for number in range(count):
        copy = folder / f"tq{number:04}_hop.blend"
        shutil.copy(first, copy)
        with copy.open("ab") as file:
            file.write(number.to_bytes(4, "little"))  # after its end: other content, the same shot
    first.unlink()


def timed(words: list[str], cache: Path) -> tuple[float, float]:
    """Seconds of a call, and the most memory of its main process, MB."""
    began = time.perf_counter()
    process = subprocess.Popen([sys.executable, "-c", CALL, *words], stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL, env={**os.environ, "XDG_CACHE_HOME": str(cache)})  # fmt: skip
    _, _, usage = os.wait4(process.pid, 0)
    return time.perf_counter() - began, usage.ru_maxrss / 1024.0


def alone(paths: list[Path]) -> float:
    """Seconds of a process a shot, each stepping its frames."""
    began = time.perf_counter()
    for path in paths:
        subprocess.run([sys.executable, "-c", NAIVE, str(path)], check=True, stdout=subprocess.DEVNULL)
    return (time.perf_counter() - began) / len(paths)


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print the ratios; tries: how many shots (200)."""
    count = tries or SHOTS
    figures: dict[str, float] = {}
    with tempfile.TemporaryDirectory() as temporary:
        root = Path(temporary)
        shots = root / "shots"
        shots.mkdir()
        day(shots, count)
        words = ["audit", str(shots), "--jobs", "2", "--report", str(root / "report"), "--json", str(root / "a.json")]
        one = alone(sorted(shots.iterdir())[:ALONE])
        first, memory = timed(words, root / "cache")
        second, _ = timed(words, root / "cache")
        assert all(shot["status"] == "ok" for shot in json.loads((root / "a.json").read_text())["shots"])
        for path in sorted(shots.iterdir())[count // 4 :]:
            path.unlink()
        fourth, lesser = timed([*words, "--no-cache"], root / "cache")
        page = (root / "report" / "index.html").stat().st_size
        figures = {
            "process a shot / one run, two workers": one * count / first,
            "first run / second run": first / second,
            "all shots / a quarter of them, less the start": (first - one) / max(fourth - one, 1e-3),
            "memory of the parent, all shots / a quarter": memory / lesser,
            "kB of the page, a jump": page / 1000.0 / (count // 4),
        }
    print("\n".join(lines(("figure", "value"), [[name, f"{value:.1f}"] for name, value in figures.items()])))
    return {"shots": count, **figures}
