"""Double and halve each named number that finds jumps in turn; say which ones no test misses.

`mutate.py [--only TEXT] [--jobs N] [--tests PATH …]`: works in copies of the tree under build/mutate, never in
place. A number counts as killed when one of the tests fails, or takes far longer than on the tree as it is.
Ends with 1 when any number outlives both. A value written as a product, a tuple or a table is taken number by
number. Whatever tests are named, they must pass on the tree as it is.
"""

from __future__ import annotations

import argparse
import ast
import os
import queue
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from environment import ROOT, say

FOLDER = ROOT / "build" / "mutate"
ROOMS = ("analysis/events", "analysis/contacts")
COPIED = ("analysis", "addon", "tests", "pyproject.toml")
STAGES = (
    "tests/analysis/events",
    "tests/analysis/contacts",
    "tests/truth/test_promises.py",
    "tests/truth/test_bias.py",
    "tests/truth/test_flaws.py",
)
"""Run in this order, those that exist, until one fails: the quickest first."""
SLOW = 5.0
"""Times the tree's own seconds after which a run counts as failed."""
FACTORS = (2.0, 0.5)


@dataclass(frozen=True)
class Number:
    """One number of a named constant: where its text lies in the file (line, columns), and its value."""

    path: Path
    name: str
    line: int
    start: int
    end: int
    value: float | int

    def times(self, factor: float) -> str | None:
        """The text of it changed; None when there is no other value."""
        if isinstance(self.value, int):
            other = self.value * 2 if factor > 1 else self.value // 2
        else:
            other = self.value * factor
        return None if other == self.value else repr(other)


def numbers_of(path: Path, inside: Path) -> Iterator[Number]:
    """Every number in the module-level constants of a file, in order."""
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Assign):
            names = [leaf.id for target in node.targets for leaf in ast.walk(target) if isinstance(leaf, ast.Name)]
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            names = [node.target.id]
        else:
            continue
        if node.value is None or not all(name.lstrip("_").isupper() for name in names):
            continue
        held = [
            leaf for leaf in ast.walk(node.value) if isinstance(leaf, ast.Constant) and type(leaf.value) in (int, float)
        ]
        for place, leaf in enumerate(held):
            name = ", ".join(names) + (f" [{place}]" if len(held) > 1 else "")
            yield Number(path.relative_to(inside), name, leaf.lineno, leaf.col_offset, leaf.end_col_offset, leaf.value)


class Tree:
    """A copy of the checkout in which one number at a time is another."""

    def __init__(self, place: int) -> None:
        self.folder = FOLDER / str(place)
        shutil.rmtree(self.folder, ignore_errors=True)
        skip = shutil.ignore_patterns("__pycache__", "*.pyc")
        for name in COPIED:
            source, target = ROOT / name, self.folder / "tree" / name
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copytree(source, target, ignore=skip) if source.is_dir() else shutil.copy2(source, target)
        (self.folder / "tree" / "build").mkdir()
        if (ROOT / "build" / "data").is_dir():
            (self.folder / "tree" / "build" / "data").symlink_to(ROOT / "build" / "data")
        package = self.folder / "path" / "leapwright"
        package.mkdir(parents=True)
        (package / "__init__.py").touch()
        for name in ("analysis", "addon"):
            (package / name).symlink_to(self.folder / "tree" / name)

    def run(self, tests: list[str], seconds: float | None = None) -> bool:
        """Whether all these tests pass within that time."""
        path = str(self.folder / "path")
        own = os.environ | {"PYTHONPATH": path, "LEAPWRIGHT_TEST_PACKAGE": path, "PYTHONDONTWRITEBYTECODE": "1"}
        pytest = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider"]
        for stage in tests:
            try:
                done = subprocess.run(
                    [*pytest, stage], cwd=self.folder / "tree", env=own, capture_output=True, timeout=seconds
                )
            except subprocess.TimeoutExpired:
                return False
            if done.returncode:
                return False
        return True

    def outlives(self, number: Number, factor: float, tests: list[str], seconds: float) -> bool:
        """Whether the tests pass with this number changed."""
        text = number.times(factor)
        if text is None:
            return False
        path = self.folder / "tree" / number.path
        kept = path.read_text(encoding="utf-8")
        rows = kept.splitlines(keepends=True)
        row = rows[number.line - 1].encode()
        rows[number.line - 1] = (row[: number.start] + text.encode() + row[number.end :]).decode()
        path.write_text("".join(rows), encoding="utf-8")
        try:
            return self.run(tests, seconds)
        finally:
            path.write_text(kept, encoding="utf-8")


def survivors(numbers: list[Number], trees: list[Tree], tests: list[str], seconds: float) -> list[tuple[Number, float]]:
    """What no test misses: the number and the factor; each tree takes the next one that is left."""
    work: queue.Queue = queue.Queue()
    for number in numbers:
        for factor in FACTORS:
            work.put((number, factor))
    total, found = work.qsize(), []

    def take(tree: Tree) -> None:
        while True:
            try:
                number, factor = work.get_nowait()
            except queue.Empty:
                return
            alive = tree.outlives(number, factor, tests, seconds)
            if alive:
                found.append((number, factor))
            left = total - work.qsize()
            say(f"{left}/{total} {number.path.name} {number.name} × {factor:g}: {'SURVIVES' if alive else 'killed'}")

    threads = [threading.Thread(target=take, args=(tree,)) for tree in trees]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return sorted(found, key=lambda one: (str(one[0].path), one[0].line, one[0].start, one[1]))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", default="", help="only numbers whose path and name hold this text")
    parser.add_argument("--jobs", type=int, default=max((os.cpu_count() or 2) - 1, 1), help="copies that run at a time")
    parser.add_argument("--tests", nargs="*", help=f"in this order; {', '.join(STAGES)} by default")
    chosen = parser.parse_args()
    tests = chosen.tests or [stage for stage in STAGES if (ROOT / stage).exists()]
    paths = [path for room in ROOMS for path in sorted((ROOT / room).rglob("*.py"))]
    numbers = [one for path in paths for one in numbers_of(path, ROOT)]
    numbers = [one for one in numbers if chosen.only in f"{one.path.as_posix()} {one.name}"]
    trees = [Tree(place) for place in range(chosen.jobs)]
    started = time.monotonic()
    if not trees[0].run(tests):
        say("The tests fail on the tree as it is: mend that first")
        return 2
    seconds = SLOW * (time.monotonic() - started) + 10.0
    say(f"{len(numbers)} numbers, twice each, under {' '.join(tests)}")
    alive = survivors(numbers, trees, tests, seconds)
    say(f"\n{len(alive)} of {2 * len(numbers)} changes go unnoticed")
    for number, factor in alive:
        say(f"  {number.path}:{number.line}  {number.name} = {number.value} × {factor:g}")
    return int(bool(alive))


if __name__ == "__main__":
    sys.exit(main())
