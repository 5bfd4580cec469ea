"""Break each formula of `formulas.toml` in turn, in a copy of the tree; say which test notices, and which none does.

`formulas.py [--only TEXT …] [--tests PATH …]`: works in a copy under build, never in place. A room's formulas
are run under the room's own tests, the ones that notice most first; the first that fails is named. Ends with 1 when a
formula can be broken and no test notices, with 2 when the list no longer fits the tree, or its tests fail on it as it
is.
"""

from __future__ import annotations

import argparse
import sys
import time
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from environment import ROOT, say
from mutants import Stage
from mutate import lay_out

LIST = ROOT / ".make" / "formulas.toml"


@dataclass(frozen=True)
class Formula:
    """A piece of a file that is a formula, what it is broken into, and the tests of its room."""

    path: str
    text: str
    broken: str
    tests: tuple[str, ...]

    def __str__(self) -> str:
        text, broken = (" ".join(one.split()) for one in (self.text, self.broken))
        return f"{self.path}: {text}  ->  {broken}"


def formulas_of(listed: Path = LIST) -> Iterator[Formula]:
    """Yield the formulas of a list, once for each way that it is broken."""
    for room in tomllib.loads(listed.read_text(encoding="utf-8"))["room"]:
        for path, formulas in room["formulas"].items():
            for text, broken in formulas.items():
                for one in [broken] if isinstance(broken, str) else broken:
                    yield Formula(path, text, one, tuple(room["tests"]))


def stale(formula: Formula, tree: Path = ROOT) -> str | None:
    """Say in what an entry no longer fits the tree; None where it does."""
    path = tree / formula.path
    if not path.is_file():
        return f"{formula.path} is no file"
    count = path.read_text(encoding="utf-8").count(formula.text)
    if count != 1:
        return f"{formula.path} has {count} times, not once: {formula.text}"
    if formula.text == formula.broken:
        return f"{formula.path} is changed in nothing: {formula.text}"
    return next((f"{test} is not there" for test in formula.tests if not (tree / test).exists()), None)


def killer_of(formula: Formula, stage: Stage, tree: Path) -> str | None:
    """Return the test that fails with this formula broken; None when all pass."""
    path = tree / formula.path
    kept = path.read_text(encoding="utf-8")
    path.write_text(kept.replace(formula.text, formula.broken), encoding="utf-8")
    try:
        return stage.killer()
    finally:
        path.write_text(kept, encoding="utf-8")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", nargs="*", default=[""], help="only formulas whose file or text holds one of these")
    parser.add_argument("--tests", nargs="*", help="tests in place of the room's own")
    call = parser.parse_args()
    formulas = [one for one in formulas_of() if any(part in f"{one.path} {one.text}" for part in call.only)]
    if not formulas:
        say(f"No file or text of a formula holds {' or '.join(call.only)}")
        return 2
    worn = [said for one in formulas if (said := stale(one))]
    for said in worn:
        say(said)
    if worn:
        return 2
    tree, path = lay_out("formulas")
    alive, started = [], time.monotonic()
    for tests in dict.fromkeys(one.tests for one in formulas):
        stage = Stage(tuple(call.tests or tests), tree, path)
        if failed := stage.measure():
            say(f"On the tree as it is {failed} fails: mend that first")
            return 2
        for one in (one for one in formulas if one.tests == tests):
            killer = killer_of(one, stage, tree)
            alive += [] if killer else [one]
            said = f"noticed by {killer}" if killer else "NOT NOTICED"
            say(f"{formulas.index(one) + 1}/{len(formulas)} {time.monotonic() - started:.0f} s {one}: {said}")
    say(f"\n{len(alive)} of {len(formulas)} broken formulas go unnoticed")
    for one in alive:
        say(f"  {one}")
    return int(bool(alive))


if __name__ == "__main__":
    sys.exit(main())
