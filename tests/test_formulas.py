"""The list that `make formulas` breaks fits the tree: each formula is there once, and a breaking one is put back."""

import importlib.util
import sys
from pathlib import Path

import pytest

from tests.house import ROOT

sys.path.insert(0, str(ROOT / ".make"))
spec = importlib.util.spec_from_file_location("formulas", ROOT / ".make" / "formulas.py")
formulas = importlib.util.module_from_spec(spec)
sys.modules["formulas"] = formulas
spec.loader.exec_module(formulas)

ROOMS = ("analysis/measures", "analysis/findings", "analysis/planning", "analysis/mending", "analysis/retiming")
"""Rooms whose modules each have a formula in the list, or compute nothing."""
NONE = {
    # events, words, and choices between what others computed
    "measures/__init__.py", "measures/step.py", "findings/__init__.py", "findings/basis/__init__.py",
    "findings/air_floaty.py", "findings/air_snappy.py", "findings/cannot_tell.py", "findings/no_push.py",
    "findings/contact_early.py", "findings/contact_late.py", "findings/push_long.py", "findings/push_short.py",
    "planning/__init__.py", "planning/remark.py", "mending/__init__.py", "mending/words.py",
    "retiming/__init__.py", "retiming/spacing.py", "retiming/retime.py",
}  # fmt: skip


@pytest.mark.parametrize("formula", list(formulas.formulas_of()), ids=str)
def test_each_formula_of_the_list_is_in_the_tree_once(formula) -> None:
    assert formulas.stale(formula) is None


def test_no_module_that_computes_is_left_out() -> None:
    listed = {formula.path for formula in formulas.formulas_of()}
    modules = {path.relative_to(ROOT).as_posix() for room in ROOMS for path in (ROOT / room).rglob("*.py")}
    left_out = {path.removeprefix("analysis/") for path in modules - listed}
    assert left_out == {name for name in NONE if (ROOT / "analysis" / name).is_file()}


def test_a_formula_that_is_gone_or_there_twice_is_told(tmp_path: Path) -> None:
    (tmp_path / "law.py").write_text("a = 1.0 * b\nc = 2.0 * d\ne = 2.0 * f\n", encoding="utf-8")
    (tmp_path / "test_law.py").touch()

    def told(text: str, broken: str = "0.0", tests: str = "test_law.py") -> str | None:
        return formulas.stale(formulas.Formula("law.py", text, broken, (tests,)), tmp_path)

    assert told("1.0 * b") is None
    assert "0 times" in told("3.0 * b")
    assert "2 times" in told("2.0 * ")
    assert "changed in nothing" in told("1.0 * b", "1.0 * b")
    assert "is not there" in told("1.0 * b", tests="test_none.py")


def test_a_broken_formula_is_seen_by_the_tests_and_put_back(tmp_path: Path) -> None:
    path = tmp_path / "law.py"
    path.write_text("fall = 0.5 * g * t**2\n", encoding="utf-8")
    seen = []

    class Stage:
        def killer(self) -> str:
            seen.append(path.read_text(encoding="utf-8"))
            return "a test"

    formula = formulas.Formula("law.py", "0.5 * g", "0.6 * g", ("test_law.py",))
    assert formulas.killer_of(formula, Stage(), tmp_path) == "a test"
    assert seen == ["fall = 0.6 * g * t**2\n"]
    assert path.read_text(encoding="utf-8") == "fall = 0.5 * g * t**2\n"
