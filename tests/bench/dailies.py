"""What a day costs: one run for all shots against a process a shot, a second run from the cache, memory, the page.

The shots are copies of one small rig's leap. Some bytes are added after the end of each file, so that no two are equal.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
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
"""The plain script to compare with: open the shot, step its frames, audit."""


def day(folder: Path, count: int) -> None:
    """Build shots of one leap, each with a different content."""
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
            file.write(number.to_bytes(4, "little"))  # bytes after the end change the content, not the shot
    first.unlink()


@dataclass(frozen=True)
class Cost:
    """The cost of a call: seconds by the clock, seconds of all its processes, and memory of its main process in MB."""

    clock: float
    processor: float
    memory: float


def cost(words: list[str], root: Path) -> Cost:
    """Run a process of Python as an installed one runs: with its modules compiled, and a cache of its own."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    own = {"XDG_CACHE_HOME": str(root / "cache"), "PYTHONPYCACHEPREFIX": str(root / "compiled")}
    began = time.perf_counter()
    process = subprocess.Popen([sys.executable, *words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                               env={**kept, **own})  # fmt: skip
    _, status, usage = os.wait4(process.pid, 0)
    assert status == 0, words
    return Cost(time.perf_counter() - began, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024.0)


def usual(costs: list[Cost]) -> Cost:
    """Return the middle one of several runs by the clock."""
    return sorted(costs, key=lambda one: one.clock)[len(costs) // 2]


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print the ratios; tries: how many shots (200)."""
    count = tries or SHOTS
    figures: dict[str, float] = {}
    with tempfile.TemporaryDirectory() as temporary:
        root = Path(temporary)
        shots = root / "shots"
        shots.mkdir()
        day(shots, count)
        audit = ["-c", CALL, "audit", str(shots), "--jobs", "2", "--report", str(root / "report"),
                 "--json", str(root / "a.json")]  # fmt: skip
        paths = sorted(shots.iterdir())
        for path in paths[:2]:  # after the first run everything is compiled
            cost(["-c", NAIVE, str(path)], root)
            cost(["-c", CALL, "audit", str(path), "--no-cache"], root)
        one = usual([cost(["-c", NAIVE, str(path)], root) for path in paths[:ALONE]])
        first = cost(audit, root)
        second = usual([cost(audit, root) for _ in range(3)])
        assert all(shot["status"] == "ok" for shot in json.loads((root / "a.json").read_text())["shots"])
        for path in paths[count // 4 :]:
            path.unlink()
        fourth = cost([*audit, "--no-cache"], root)
        page = (root / "report" / "index.html").stat().st_size
        rendered = cost([*audit, "--no-cache", "--thumbnails"], root)
        start = cost(["-c", "import bpy"], root).processor * 2
        seen = (root / "report" / "index.html").stat().st_size
        figures = {
            "process a shot / one run, two workers": one.clock * count / first.clock,
            "process a shot / one run, processor time": one.processor * count / first.processor,
            "first run / second run": first.clock / second.clock,
            "first run / second run, processor time": first.processor / second.processor,
            "all shots / a quarter, processor time less two starts of Blender":
                (first.processor - start) / (fourth.processor - start),
            "memory of the parent, all shots / a quarter": first.memory / fourth.memory,
            "kB of the page, a jump": page / 1000.0 / (count // 4),
            "with thumbnails / without, processor time": rendered.processor / fourth.processor,
            "kB of the page, a jump with its thumbnail": seen / 1000.0 / (count // 4),
        }  # fmt: skip
    print("\n".join(lines(("figure", "value"), [[name, f"{value:.1f}"] for name, value in figures.items()])))
    return {"shots": count, **figures}
