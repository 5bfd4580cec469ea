"""`make mutate` changes what it says: each number of a constant, one at a time, and puts it back."""

import importlib.util
import os
import sys
from pathlib import Path

from tests.house import ROOT

sys.path.insert(0, str(ROOT / ".make"))
spec = importlib.util.spec_from_file_location("mutate", ROOT / ".make" / "mutate.py")
mutate = importlib.util.module_from_spec(spec)
sys.modules["mutate"] = mutate
spec.loader.exec_module(mutate)
mutants = sys.modules["mutants"]

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
    path = tmp_path / many.path
    seen = []

    class Stage:
        def killer(self) -> str:
            seen.append(path.read_text(encoding="utf-8"))
            return "a test"

    assert mutate.killer_of(many, 0.5, [Stage()], tmp_path) == "a test"
    assert seen == [TEXT.replace("2.5", "1.25")]
    assert path.read_text(encoding="utf-8") == TEXT


def test_the_test_that_fails_is_named_and_later_ones_come_after_it(tmp_path: Path) -> None:
    """Three tests in a folder of their own; only the last looks at the number that changes."""
    (tmp_path / "number.py").write_text("REACH = 1.0\n", encoding="utf-8")
    os.utime(tmp_path / "number.py", (0, 0))  # Python compiles the file anew only where its time has changed
    (tmp_path / "test_few.py").write_text(
        "import number\ndef test_a(): pass\ndef test_b(): pass\ndef test_c(): assert number.REACH == 1.0\n",
        encoding="utf-8",
    )
    stage = mutants.Stage(("test_few.py",), tmp_path, tmp_path)
    assert stage.measure() is None
    assert sorted(stage.seconds) == [f"test_few.py::test_{one}" for one in "abc"]
    (tmp_path / "number.py").write_text("REACH = 2.0\n", encoding="utf-8")
    assert stage.killer() == "test_few.py::test_c"
    assert stage.kills == {"test_few.py::test_c": 1}
