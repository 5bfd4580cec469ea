"""The rules of the house, read from the syntax trees: what DEVELOPERS.md asks of every module."""

import ast
import json
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.house import CODE, MODULES, ROOT, imports, module_of, named, sources, tree_of, where

VISIBLE = {"README.md", "DEVELOPERS.md", "addon", "analysis", "tests", "blender_manifest.toml", "Makefile"}
VISIBLE |= {"LICENSE", "pyproject.toml"}

# A module of analysis/ imports its own floor or a lower one.
FLOORS = {
    "words": ["errors", "units", "law", "version", "world", "track", "finding", "certainty", "notes", "limits",
              "house", "settings", "phases", "quantity", "beat", "time_map", "mend", "arrays", "steps"],
    "feet": ["feet"],
    "measure": ["samples", "contacts", "cases", "events", "measures", "mass", "jump", "figures"],
    "judge": ["findings", "audit", "doubt", "planning", "retiming", "mending", "shot"],
    "doors": ["json_text", "schema", "sources", "files", "show", "dailies", "report", "ending", "terminal", "writing",
              "targets", "cache", "progress", "outputs", "options", "day", "ways", "batch", "commands", "command"],
}
FLOOR = {name: level for level, names in enumerate(FLOORS.values()) for name in names}

# Writing keys is the work of two modules; reading them, and stepping a frame in a scene of one's own, are listed.
WRITING = {"keyframe_insert", "keyframe_delete", "keyframe_points", "frame_set"}
MAY_NAME = {"addon.keys": WRITING, "addon.planning.laying": {"keyframe_insert", "keyframe_points"},
            "addon.reading.private_scene": {"frame_set"}, "addon.shots.thumbnails": {"frame_set"}}
MAY_NAME |= {f"addon.{name}": {"keyframe_points"}
             for name in ("reading.curves", "reading.state", "planning.keyable", "selection")}
WRITERS = {"addon.keys", "addon.planning.laying"}
CHANGES_POINTS = {"foreach_set", "insert"}

# Packages of an extra, each loaded only for the option of the call that needs it.
OPTIONAL = {"addon.shots.farm": {"distributed"}, "analysis.report.otio": {"opentimelineio"}}

# Methods that Blender calls by name; their class says what they are for.
CALLBACKS = {"poll", "invoke", "execute", "modal", "check", "draw", "draw_header", "draw_item"}


def test_analysis_knows_nothing_of_blender() -> None:
    host = {"bpy", "bpy_extras", "mathutils", "gpu", "gpu_extras", "blf", "bmesh", "addon", "leapwright"}
    wrong = [f"{where(path, node)} imports {name}" for path in sources("analysis")
             for node, _, name in imports(path) if name.split(".")[0] in host]
    assert not wrong


def test_an_audit_loads_neither_blender_nor_scipy() -> None:
    code = "import sys, json; from leapwright.analysis import audit_track; print(json.dumps(sorted(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    loaded = {name.split(".")[0] for name in json.loads(done.stdout)}
    assert not loaded & {"bpy", "mathutils", "scipy"}
    assert "numpy" in loaded


def test_the_product_needs_blender_and_numpy_alone() -> None:
    # zstandard comes with Blender; the file's header is told without it where it is missing.
    known = sys.stdlib_module_names | {"numpy", "bpy", "mathutils", "gpu", "gpu_extras", "bpy_extras", "blf", "bl_ui"}
    known |= {"bmesh", "addon_utils", "zstandard", "addon", "analysis"}
    assert not [f"{where(path, node)} imports {name}" for path in CODE for node, _, name in imports(path)
                if name.split(".")[0] not in known | OPTIONAL.get(module_of(path), set())]


def test_no_module_imports_from_a_higher_floor() -> None:
    wrong = []
    for path in sources("analysis"):
        own = module_of(path).split(".")[1:2]
        if not own:
            continue
        assert own[0] in FLOOR, f"{where(path, path)}: give {own[0]} a floor in FLOORS"
        for node, dots, name in imports(path):
            other = name.split(".")[1:2]
            if dots and (not other or FLOOR.get(other[0], 0) > FLOOR[own[0]]):
                wrong.append(f"{where(path, node)}: {own[0]} imports {name}")
    assert not wrong


def test_no_imports_in_a_circle() -> None:
    graph = {name: {other for _, dots, other in imports(path) if dots and other in MODULES and other != name}
             for name, path in MODULES.items()}
    done: set[str] = set()

    def visit(name: str, trail: tuple[str, ...]) -> None:
        assert name not in trail, " -> ".join([*trail[trail.index(name):], name])
        if name not in done:
            for other in sorted(graph[name]):
                visit(other, (*trail, name))
            done.add(name)

    for name in graph:
        visit(name, ())


def test_imports_are_relative_and_no_one_names_where_it_is_installed() -> None:
    wrong = [f"{where(path, node)} imports {name}" for path in CODE for node, dots, name in imports(path)
             if not dots and name.split(".")[0] in {"leapwright", "addon", "analysis"}]
    wrong += [module for module, path in MODULES.items() if "bl_ext" in path.read_text(encoding="utf-8")]
    assert not wrong


def test_only_the_writers_write_keys() -> None:
    wrong = []
    for path in CODE:
        allowed = MAY_NAME.get(module_of(path), set())
        for node in ast.walk(tree_of(path)):
            named = node.attr if isinstance(node, ast.Attribute) else getattr(node, "value", None)
            if isinstance(named, str) and named in WRITING - allowed:
                wrong.append(f"{where(path, node)} names {named}")
            if isinstance(named, str) and "keyframe_points" in allowed and module_of(path) not in WRITERS:
                writes = isinstance(node, ast.Attribute) and named in CHANGES_POINTS
                wrong += [f"{where(path, node)} may read keys, but calls {named}"] * writes
    assert not wrong


def test_modules_and_functions_are_short() -> None:
    wrong = []
    for path in [*CODE, *sources("tests", ".make")]:
        length = len(path.read_text(encoding="utf-8").splitlines())
        wrong += [f"{path.relative_to(ROOT)}: {length} lines"] * (length > 250)
        for node in ast.walk(tree_of(path)):
            if isinstance(node, ast.FunctionDef) and node.end_lineno - node.lineno + 1 > 50:
                wrong.append(f"{where(path, node)} {node.name}: {node.end_lineno - node.lineno + 1} lines")
    assert not wrong


def test_what_finds_a_jump_and_what_holds_one_stay_small() -> None:
    """Ours: the room of events is read in a sitting, and a jump's record on two screens."""
    events = sources("analysis/events")
    assert sum(len(path.read_text().splitlines()) for path in events) <= 1_400
    assert sum(name.isupper() for path in events for name in named(tree_of(path))) <= 45
    assert len((ROOT / "analysis/jump.py").read_text().splitlines()) < 120


def test_no_module_has_a_name_that_says_nothing() -> None:
    drawers = {"utils", "util", "helpers", "helper", "common", "misc", "manager"}
    assert not [module for module in map(module_of, [*CODE, *sources("tests", ".make")])
                if module.split(".")[-1] in drawers]


PLUGINS = [path for folder in ("analysis/findings", "analysis/sources", "addon/sources")
           for path in sources(folder) if path.name != "__init__.py" and path.parent.name != "basis"]


@pytest.mark.parametrize("path", PLUGINS, ids=module_of)
def test_each_finding_and_source_has_its_test_and_its_row_in_the_readme(path: Path) -> None:
    assert list((ROOT / "tests").rglob(f"test_{path.stem}.py")), f"no tests/**/test_{path.stem}.py"
    names = {f"`{path.stem}`", f"`{path.stem.replace('_', '-')}`"}
    rows = [line for line in (ROOT / "README.md").read_text(encoding="utf-8").splitlines() if line[:1] == "|"]
    assert [row for row in rows if any(name in row for name in names)], f"README has no row with {names}"


@pytest.mark.parametrize("path", [path for path in sources("analysis/events/witnesses") if path.stem != "__init__"],
                         ids=module_of)
def test_each_witness_has_its_test_and_its_row_in_the_guide(path: Path) -> None:
    assert (ROOT / "tests/analysis/events/witnesses" / f"test_{path.stem}.py").exists()
    assert f"| `{path.stem}` |" in (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def defined(path: Path) -> Iterator[tuple[ast.FunctionDef | ast.ClassDef, bool]]:
    """Yield functions, methods and classes, each with whether it lies in a class."""
    for node in tree_of(path).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            yield node, False
        if isinstance(node, ast.ClassDef):
            yield from ((inner, True) for inner in node.body if isinstance(inner, ast.FunctionDef))


def test_everything_public_has_a_docstring() -> None:
    wrong = [str(path.relative_to(ROOT)) for path in CODE
             if path.read_text(encoding="utf-8").strip() and not ast.get_docstring(tree_of(path))]
    wrong += [f"{where(path, node)} {node.name}" for path in CODE for node, inside in defined(path)
              if not node.name.startswith("_") and not (inside and node.name in CALLBACKS)
              and not ast.get_docstring(node)]
    assert not wrong


def test_every_function_is_annotated() -> None:
    wrong = []
    for path in CODE:
        for node, inside in defined(path):
            if isinstance(node, ast.ClassDef):
                continue
            arguments = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
            arguments += [extra for extra in (node.args.vararg, node.args.kwarg) if extra]
            static = any(ast.unparse(mark) == "staticmethod" for mark in node.decorator_list)
            bare = [a.arg for a in arguments[inside and not static :] if a.annotation is None]
            bare += ["its return"] * (node.returns is None)
            wrong += [f"{where(path, node)} {node.name}: {', '.join(bare)}"] * bool(bare)
    assert not wrong


def test_what_the_type_checker_passes_over_is_named_and_says_why() -> None:
    lines = [(path, number, line) for path in CODE
             for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1)]
    assert not [f"{path.relative_to(ROOT)}:{number}" for path, number, line in lines
                if "type: ignore" in line and not re.search(r"# type: ignore\[[a-z-]+\]  # \w", line)]


def test_what_analysis_exports_is_true_and_sorted() -> None:
    import leapwright.analysis as analysis

    def order(name: str) -> tuple[int, str]:
        return (0 if name.isupper() else 1 if name[0].isupper() else 2), name

    (for_checkers,) = [node for node in tree_of(ROOT / "analysis" / "__init__.py").body if isinstance(node, ast.If)]
    imported = {(node.module, alias.name) for node in for_checkers.body for alias in node.names}
    assert analysis.__all__ == sorted((name for _, name in imported), key=order)
    assert imported == {(module, name) for name, module in analysis.HOME_OF.items()}
    assert all(hasattr(analysis, name) for name in analysis.__all__)


def test_the_top_level_holds_nothing_else() -> None:
    kept = subprocess.run(["git", "ls-files"], capture_output=True, text=True, check=True, cwd=ROOT).stdout
    entries = {line.split("/")[0] for line in kept.splitlines()}
    assert "Makefile" in entries
    assert {entry for entry in entries if entry[0] != "."} <= VISIBLE


def test_pyproject_lists_every_package_and_agrees_with_the_manifest() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    manifest = tomllib.loads((ROOT / "blender_manifest.toml").read_text(encoding="utf-8"))
    folders = {module_of(path) for path in CODE if path.name == "__init__.py"}
    assert set(project["tool"]["setuptools"]["packages"]) == {f"leapwright.{name}" for name in folders}
    assert {module_of(path).rpartition(".")[0] for path in CODE if path.name != "__init__.py"} <= folders
    assert project["project"]["version"] == manifest["version"]


def test_the_project_cites_no_recording() -> None:
    word = "trans" + "cript"
    texts = [path for path in ROOT.iterdir() if path.is_file() and path.name in VISIBLE]
    texts += [path for folder in ("addon", "analysis", "tests") for path in (ROOT / folder).rglob("*")
              if path.suffix in {".py", ".md", ".toml", ".json", ".csv", ".txt"}]
    assert not [str(path) for path in texts if word in path.read_text(encoding="utf-8").lower()]
