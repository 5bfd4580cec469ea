"""Double and halve each named number that finds jumps in turn; say which ones no test misses.

`mutate.py [--only TEXT …] [--but TEXT …] [--tests PATH …] [--longest SECONDS]`: works in a copy of the tree under
build, each run in its own, never in place. A number counts as killed when a test fails, crashes, or takes far longer
than on the tree as it is. The tests that have killed most come first, then the quickest. Ends with 1 when any number
outlives both changes. A value written as a product, a tuple or a table is taken number by number. Whatever tests are
named, they must pass on the tree as it is.
"""

from __future__ import annotations

import argparse
import ast
import atexit
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from environment import ROOT, say
from mutants import Stage

ROOMS = ("analysis/cases", "analysis/events", "analysis/contacts")
COPIED = ("analysis", "addon", "tests", "pyproject.toml")
STAGES = (
    ("tests/analysis/cases", "tests/analysis/events", "tests/analysis/contacts"),
    ("tests/truth/test_promises.py", "tests/truth/test_bias.py", "tests/truth/test_flaws.py"),
)
"""Run in this order until a test fails: the quicker ones first."""
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
        """Return the text of it changed; None when there is no other value."""
        if isinstance(self.value, int):
            other = self.value * 2 if factor > 1 else self.value // 2
        else:
            other = self.value * factor
        return None if other == self.value else repr(other)


def numbers_of(path: Path, inside: Path) -> Iterator[Number]:
    """Yield every number in the module-level constants of a file, in order."""
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


def lay_out(name: str = "mutate") -> tuple[Path, Path]:
    """Copy the checkout, until this process ends; return the copy, and the folder that it is imported from."""
    (ROOT / "build").mkdir(exist_ok=True)
    folder = Path(tempfile.mkdtemp(prefix=f"{name}-", dir=ROOT / "build"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    tree, path = folder / "tree", folder / "path"
    (tree / "build").mkdir(parents=True)
    for part in COPIED:
        source, target = ROOT / part, tree / part
        skip = shutil.ignore_patterns("__pycache__")
        shutil.copytree(source, target, ignore=skip) if source.is_dir() else shutil.copy2(source, target)
    if (ROOT / "build" / "data").is_dir():
        (tree / "build" / "data").symlink_to(ROOT / "build" / "data")
    (path / "leapwright").mkdir(parents=True)
    (path / "leapwright" / "__init__.py").touch()
    for package in ("analysis", "addon"):
        (path / "leapwright" / package).symlink_to(tree / package)
    return tree, path


def killer_of(number: Number, factor: float, stages: list[Stage], tree: Path) -> str | None:
    """Return the test that fails with this number changed; None when all pass."""
    text = number.times(factor)
    if text is None:
        return "no other value"
    path = tree / number.path
    kept = path.read_text(encoding="utf-8")
    rows = kept.splitlines(keepends=True)
    row = rows[number.line - 1].encode()
    rows[number.line - 1] = (row[: number.start] + text.encode() + row[number.end :]).decode()
    path.write_text("".join(rows), encoding="utf-8")
    try:
        return next((killer for killer in (stage.killer() for stage in stages) if killer), None)
    finally:
        path.write_text(kept, encoding="utf-8")


def chosen(numbers: list[Number], only: list[str], but: list[str]) -> list[Number]:
    """Keep the numbers whose path and name hold one of these texts, and none of those."""
    names = [(one, f"{one.path.as_posix()} {one.name}") for one in numbers]
    return [one for one, name in names if any(part in name for part in only) and not any(part in name for part in but)]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", nargs="*", default=[""], help="only numbers whose path and name hold one of these")
    parser.add_argument("--but", nargs="*", default=[], help="leave out those whose path and name hold one of these")
    parser.add_argument("--tests", nargs="*", help="tests in place of the usual ones")
    parser.add_argument("--longest", type=float, default=float("inf"), help="leave out tests that take longer")
    call = parser.parse_args()
    rooms = [file for room in ROOMS for file in sorted((ROOT / room).rglob("*.py"))]
    numbers = chosen([one for file in rooms for one in numbers_of(file, ROOT)], call.only, call.but)
    if not numbers:
        say("No number has such a path and name")
        return 2
    tree, path = lay_out()
    named = [tuple(call.tests)] if call.tests else STAGES
    stages = [Stage(tests, tree, path, longest=call.longest) for tests in named]
    for stage in stages:
        failed = stage.measure()
        if failed:
            say(f"On the tree as it is {failed} fails: mend that first")
            return 2
    say(f"{len(numbers)} numbers, twice each, under {sum(len(stage.seconds) for stage in stages)} tests")
    alive, started = [], time.monotonic()
    for place, number in enumerate(numbers, start=1):
        for factor in FACTORS:
            killer = killer_of(number, factor, stages, tree)
            alive += [] if killer else [(number, factor)]
            told = f"killed by {killer}" if killer else "SURVIVES"
            spent = f"{time.monotonic() - started:.0f} s"
            say(f"{place}/{len(numbers)} {spent} {number.path}:{number.line} {number.name} × {factor:g}: {told}")
    say(f"\n{len(alive)} of {2 * len(numbers)} changes go unnoticed")
    for number, factor in alive:
        say(f"  {number.path}:{number.line}  {number.name} = {number.value} × {factor:g}")
    return int(bool(alive))


if __name__ == "__main__":
    sys.exit(main())
