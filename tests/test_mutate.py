"""`make mutate` changes what it says: each number of a constant, one at a time, and puts it back."""

import importlib.util
import sys
from pathlib import Path

from tests.house import ROOT

sys.path.insert(0, str(ROOT / ".make"))
spec = importlib.util.spec_from_file_location("mutate", ROOT / ".make" / "mutate.py")
mutate = importlib.util.module_from_spec(spec)
sys.modules["mutate"] = mutate
spec.loader.exec_module(mutate)

TEXT = '''"""A module."""
REACH = 0.05
FEW, MANY = 3, 2.5
SHARE: float = 1 / 3
NAME = "no number"
small = 4.0
FLAG = True
'''


def numbers(folder: Path) -> list:
    path = folder / "analysis" / "events" / "one.py"
    path.parent.mkdir(parents=True)
    path.write_text(TEXT, encoding="utf-8")
    return list(mutate.numbers_of(path, folder))


def test_every_number_of_a_constant_is_taken_and_nothing_else(tmp_path: Path) -> None:
    found = [(one.name, one.value) for one in numbers(tmp_path)]
    assert found == [
        ("REACH", 0.05), ("FEW, MANY [0]", 3), ("FEW, MANY [1]", 2.5), ("SHARE [0]", 1), ("SHARE [1]", 3),
    ]  # fmt: skip


def test_whole_numbers_stay_whole_and_none_is_changed_to_itself(tmp_path: Path) -> None:
    reach, few, _, one, _ = numbers(tmp_path)
    assert (reach.times(2.0), reach.times(0.5)) == ("0.1", "0.025")
    assert (few.times(2.0), few.times(0.5)) == ("6", "1")
    assert (one.times(2.0), one.times(0.5)) == ("2", "0")
    assert mutate.Number(few.path, "NONE", 1, 0, 1, 0).times(2.0) is None


def test_a_change_is_seen_by_the_tests_and_taken_back(tmp_path: Path) -> None:
    many = numbers(tmp_path)[2]
    tree = mutate.Tree.__new__(mutate.Tree)
    tree.folder = tmp_path / "copy"
    path = tree.folder / "tree" / many.path
    path.parent.mkdir(parents=True)
    path.write_text(TEXT, encoding="utf-8")
    seen = []
    tree.run = lambda tests, seconds=None: seen.append(path.read_text(encoding="utf-8")) or False
    assert tree.outlives(many, 0.5, [], 1.0) is False
    assert seen == [TEXT.replace("2.5", "1.25")]
    assert path.read_text(encoding="utf-8") == TEXT
