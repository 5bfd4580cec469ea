"""README.md and DEVELOPERS.md are true: their examples run, their tables agree with the code, and what they name
exists."""

import ast
import doctest
import math
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from leapwright.addon.command import main as leapwright
from leapwright.analysis import Limits
from leapwright.analysis.sources.track_json import json_object, track_from

from tests.house import ROOT, sources, tree_of

TEXTS = {name: (ROOT / name).read_text(encoding="utf-8") for name in ("README.md", "DEVELOPERS.md")}
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
RECIPE = re.compile(r"`((?:analysis|addon|tests)/[\w/]+\.py)`:\n\n```python\n(.*?)^```$", re.MULTILINE | re.DOTALL)
each_text = pytest.mark.parametrize("name", TEXTS)


def fences(name: str, language: str) -> list[str]:
    found = [code for kind, code in FENCE.findall(TEXTS[name]) if kind == language]
    assert found, f"{name} has no {language} example"
    return found


def rows(heading: str) -> list[list[str]]:
    """Cells of the table under a heading of the README, head and rule left out."""
    section = TEXTS["README.md"].split(f"\n## {heading}\n")[1].split("\n## ")[0]
    lines = [line for line in section.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split(" | ")] for line in lines[2:]]


def test_the_python_example_prints_what_it_shows() -> None:
    example = doctest.DocTestParser().get_doctest("\n".join(fences("README.md", "python")), {}, "README", None, 0)
    assert len(example.examples) > 5
    runner = doctest.DocTestRunner()
    runner.run(example)
    assert runner.summarize(verbose=False).failed == 0


@pytest.fixture(scope="module")
def shots(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the shots that the README's calls name."""
    calls = [line for code in fences("README.md", "console") for line in code.splitlines() if line.startswith("$ ")]
    named = sorted(set(re.findall(r"(tq\d+_\w+)\.blend", " ".join(call.split("--out")[0] for call in calls))))
    folder = tmp_path_factory.mktemp("shots")
    build = [sys.executable, "-m", "tests.quay.build", str(folder), *named]
    done = subprocess.run(build, cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return folder


CALLS = [call for code in fences("README.md", "console") for call in re.split(r"^\$ ", code, flags=re.MULTILINE)[1:]]


@pytest.mark.parametrize("call", CALLS, ids=lambda call: call.splitlines()[0][:50])
def test_a_call_prints_what_the_readme_shows(call: str, shots: Path) -> None:
    typed, _, shown = call.partition("\n")
    name, *words = shlex.split(typed)
    assert name == "leapwright"
    program = shutil.which(name, path=str(Path(sys.executable).parent))
    assert program, "the command is not installed beside this Python"
    done = subprocess.run([program, *words], cwd=shots, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert done.stdout.rstrip().splitlines() == shown.rstrip().splitlines()


@each_text
def test_every_word_of_make_that_is_named_exists(name: str) -> None:
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    words = set(re.findall(r"(?:`|^)make ([a-z-]+)", TEXTS[name], re.MULTILINE))
    assert {"README.md": {"demo", "test"}, "DEVELOPERS.md": {"test", "bench"}}[name] <= words
    assert not [word for word in words if not re.search(rf"^{word}:", makefile, re.MULTILINE)]


@each_text
def test_every_file_and_heading_that_is_named_exists(name: str) -> None:
    text = FENCE.sub("", RECIPE.sub("", TEXTS[name]))
    made = {path for path, _ in RECIPE.findall(TEXTS[name])}
    named = set(re.findall(r"`((?:addon|analysis|tests|\.make|\.ci)/[\w./-]*)`", text)) - made
    linked = set(re.findall(r"\]\((?!http|#)([^)#]+)", text))
    assert linked or name == "DEVELOPERS.md"
    assert not [path for path in named | linked if not (ROOT / path).exists()]


@pytest.mark.parametrize("command", ["audit", "plan", "retime"])
def test_every_option_that_is_named_is_one_of_the_commands(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert leapwright([command, "--help"]) == 0
    options = set(re.findall(r"--[a-z-]+", capsys.readouterr().out)) - {"--help"}
    section = TEXTS["README.md"].split(f"\n### leapwright {command}\n")[1].split("\n#")[0]
    named = set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", section)) - {"--command"}
    assert named <= options, named - options
    if command == "audit":
        assert not options - named, "the README leaves out"


def test_the_findings_table_has_a_row_for_each_finding_and_no_other() -> None:
    files = [path for path in sources("analysis/findings") if path.parent.name != "basis"]
    codes = {path.stem.replace("_", "-") for path in files} - {"--init--"}
    assert sorted(row[0].strip("`") for row in rows("What it finds")) == sorted(codes)


@pytest.mark.parametrize("row", rows("What it finds"), ids=lambda row: row[0].strip("`"))
def test_a_findings_row_says_the_limits_it_is_told_by(row: list[str]) -> None:
    module = ROOT / "analysis" / "findings" / f"{row[0].strip('`').replace('-', '_')}.py"
    used = {node.attr for node in ast.walk(tree_of(module)) if isinstance(node, ast.Attribute)
            and ast.unparse(node.value) == "limits"}
    for limit in used - {"frames_band"}:
        value = getattr(Limits(), limit)
        ways = {f"{value:g}", f"{value * 100:g} %", f"{(1 - value) * 100:g} %", f"{math.degrees(value):g}°"}
        ways |= {"a sixth"} if limit == "stiff_ratio" else set()
        assert any(re.search(rf"(?<![\d.]){re.escape(way)}(?![\d.]\d)", row[2]) for way in ways), (limit, ways)
    if "frames_band" in used:
        assert "frame" in row[2] or "its own band" in row[2]


def test_the_track_file_of_the_readme_can_be_read() -> None:
    track = track_from(json_object(fences("README.md", "json")[0]))
    assert len(track.frames) >= 5 and track.feet is not None and not track.notes


RECIPES_RUN = """
import sys
from pathlib import Path
import numpy as np
from leapwright_copy.audit import audit_track
from leapwright_copy.sources import read_file
frames = np.arange(61)
air = (frames - 20) / 24
flight = 2.0 + 2.5 * air - 0.5 * 9.80665 * air**2
push = 1.6 + 0.4 * np.clip((frames - 12.2) / 7.8, 0, 1) ** 2
heights = np.where(frames < 20, push, np.maximum(flight, 0.5))
Path(sys.argv[1]).parent.mkdir(exist_ok=True)
np.savez(sys.argv[1], frames=frames, positions=np.column_stack([0 * heights, 0 * heights, heights]))
(track,) = read_file(Path(sys.argv[1])).tracks
print(track.name, len(track.frames), *(f.code for jump in audit_track(track).jumps for f in jump.findings))
"""


@pytest.mark.parametrize(("nats", "found"), [("(0.0, 0.0, 0.0)", True), ("(-30.0, -30.0, -30.0)", False)])
def test_the_recipes_work_in_a_copy_of_the_analysis(tmp_path: Path, nats: str, found: bool) -> None:
    """The new witness says nothing at first, and decides once its table says so."""
    shutil.copytree(ROOT / "analysis", tmp_path / "leapwright_copy")
    recipes = {path: code for path, code in RECIPE.findall(TEXTS["DEVELOPERS.md"]) if path.startswith("analysis/")}
    assert len(recipes) == 3
    for path, code in recipes.items():
        (tmp_path / path.replace("analysis", "leapwright_copy", 1)).write_text(code, encoding="utf-8")
    (table,) = re.findall(r'^    ("evenness": WeightTable.*)$', TEXTS["DEVELOPERS.md"], re.MULTILINE)
    weights, first = tmp_path / "leapwright_copy" / "events" / "weights.py", "WEIGHTS: Mapping[str, WeightTable] = {"
    text, row = weights.read_text(encoding="utf-8"), table.replace("(0.0, 0.0, 0.0)", nats)
    weights.write_text(text.replace(first, f"{first}\n    {row}"), encoding="utf-8")
    run = [sys.executable, "-c", RECIPES_RUN, str(tmp_path / "day" / "moss.npz")]
    done = subprocess.run(run, cwd=tmp_path, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("moss 61") and ("drop-deep" in done.stdout.split()) is found


@each_text
def test_python_in_the_texts_keeps_the_style_of_the_house(name: str, tmp_path: Path) -> None:
    for path, code in RECIPE.findall(TEXTS[name]):
        file = tmp_path / path.replace("/", "_")
        file.write_text(code, encoding="utf-8")
        lint = [sys.executable, "-m", "ruff", "check", "--config", str(ROOT / "pyproject.toml"), str(file)]
        done = subprocess.run(lint, capture_output=True, text=True)
        assert done.returncode == 0, done.stdout
