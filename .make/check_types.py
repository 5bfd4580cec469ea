"""Check the types of analysis and addon with mypy, strictly: the package as it is installed.

`check_types.py [option of mypy …]` lays under build/types what mypy is shown, and Python never imports: the
package, and the published stubs of Blender's API. Both are changed there in what no annotation could say:

- A property of Blender's is an annotation that calls, `height: FloatProperty(…)`. In its place stands the type of
  its value, on the same line, so that what is read from it is checked.
- What the add-on registers on Blender's own types (`Scene.leapwright`) is declared there.
- What the stubs let be None, and what the host always has, is declared so (`ALWAYS`).
- What the stubs leave out is added (`LEFT_OUT`).
"""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import sysconfig
from collections.abc import Iterator
from pathlib import Path

from environment import ROOT, say

FOLDER = ROOT / "build" / "types"
PACKAGE = "leapwright"
VALUES = {
    "BoolProperty": "bool",
    "IntProperty": "int",
    "FloatProperty": "float",
    "StringProperty": "str",
    "EnumProperty": "str",
    "FloatVectorProperty": "'collections.abc.Sequence[float]'",
}
ALWAYS = {
    "AddonPreferences": ("layout",),
    "Context": ("preferences", "region", "scene", "view_layer", "window_manager", "workspace"),
    "Header": ("layout",),
    "ID": ("animation_data_create", "copy"),
    "Material": ("node_tree",),
    "Menu": ("layout",),
    "MovieClip": ("tracking",),
    "MovieTracking": ("camera",),
    "Operator": ("layout",),
    "Panel": ("layout",),
    "UILayout": ("operator",),
    "Scene": ("view_settings",),
    "ViewLayer": ("depsgraph",),
    "World": ("node_tree",),
}
"""What is there whenever the add-on's code asks: a file is open, a region is drawn, our operators are registered."""
LEFT_OUT = {
    "bpy/types": (
        ("class bpy_prop_array(bpy_prop):\n", "class bpy_prop_array[T](bpy_prop):\n"
         "    def __iter__(self) -> collections.abc.Iterator[T]: ...\n"
         "    def __getitem__(self, key: int) -> T: ...\n"
         "    def __len__(self) -> int: ...\n"),
        ("context: Context | None | None", "context: Context"),
        ("key: int | str | tuple[str, ...]", "key: int | str | tuple[str, str | None]"),
        ("key: str | tuple[str, ...]", "key: str | tuple[str, str | None]"),
        ("unit: typing.Literal[\"DEFAULT\"]", "unit: str"),
    ),
    "bpy/app/handlers": (("persistent: typing.Any\n", "def persistent[T](function: T) -> T: ...\n"),),
    "mathutils": (
        ("class MatrixAccess:\n", "class MatrixAccess:\n    def __getitem__(self, key: int) -> Vector: ...\n"),
        *((f"class {kind}:\n", f"class {kind}:\n    def __iter__(self) -> collections.abc.Iterator[{held}]: ...\n")
          for kind, held in (("Euler", "float"), ("Matrix", "Vector"), ("Vector", "float"))),
    ),
}  # fmt: skip
"""Flaws of the stubs: what can be indexed, iterated and given, and is not said to be."""


def modules() -> Iterator[Path]:
    for name in ("analysis", "addon"):
        yield from sorted((ROOT / name).rglob("*.py"))


def name_of(path: Path) -> str:
    return ".".join((PACKAGE, *path.relative_to(ROOT).with_suffix("").parts))


def value_of(call: ast.Call, makers: dict[str, str], known: set[str]) -> str | None:
    """Return the type of what a property holds; None when it is none of Blender's properties."""
    kind = ast.unparse(call.func)
    kind = makers.get(kind, kind)
    given = {argument.arg: argument.value for argument in call.keywords}
    if kind == "EnumProperty" and "options" in given and "ENUM_FLAG" in ast.unparse(given["options"]):
        return "set[str]"
    if kind in ("PointerProperty", "CollectionProperty"):
        held = ast.unparse(given["type"])
        if kind == "CollectionProperty":
            return f"'bpy.types.bpy_prop_collection_idprop[{held}]'"
        return held if held in known else f"{held} | None"
    return VALUES.get(kind)


def shown(path: Path, groups: set[str]) -> str:
    """Return a module's text with its properties' values in place of the properties."""
    text = path.read_text(encoding="utf-8")
    if "Property" not in text:
        return text
    tree, rows = ast.parse(text), text.splitlines(keepends=True)
    makers = {
        node.name: ast.unparse(node.returns)
        for node in tree.body
        if isinstance(node, ast.FunctionDef) and node.returns and ast.unparse(node.returns).endswith("Property")
    }
    for node in ast.walk(tree):
        if not isinstance(node, ast.AnnAssign) or not isinstance(node.annotation, ast.Call):
            continue
        value = value_of(node.annotation, makers, groups)
        if value is None:
            continue
        first, last = node.annotation.lineno - 1, node.annotation.end_lineno - 1
        before, after = rows[first][: node.annotation.col_offset], rows[last][node.annotation.end_col_offset :]
        rows[first : last + 1] = [before + value + after, *["\n"] * (last - first)]
    return "".join([*rows, "\nimport collections.abc, bpy\n"])


def registered(path: Path) -> Iterator[tuple[str, str, str]]:
    """Yield what a module registers on Blender's types: type, name, type of the value."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not (isinstance(node, ast.Call) and ast.unparse(node.func) == "Saved"):
            continue
        owner, name, _, make = node.args
        held = ast.unparse(next(word.value for word in make.body.keywords if word.arg == "type"))
        value = f"{name_of(path)}.{held}"
        if ast.unparse(make.body.func) == "CollectionProperty":
            value = f"bpy_prop_collection_idprop[{value}]"
        yield ast.unparse(owner).removeprefix("bpy.types."), ast.literal_eval(name), value


def stub(text: str, declared: list[tuple[str, str, str]]) -> str:
    """Return Blender's types with what is registered on them, and without the Nones that never are."""
    imports = sorted({value.split("[")[-1].rpartition(".")[0] for _, _, value in declared})
    parts = re.split(r"^(?=class )", text, flags=re.MULTILINE)
    for place, part in enumerate(parts):
        heading = re.match(r"class (\w+)", part)
        kind = heading[1] if heading else ""
        for name in ALWAYS.get(kind, ()):
            returned = rf"(    def {name}\((?:[^)]|\n)*?\) -> )([^:\n]*):\n"
            part, count = re.subn(rf"{returned}|(    {name}: )([^\n]*)\n", _without_none, part, count=1)
            if not count:
                raise SystemExit(f"The stubs have no {kind}.{name}: mend ALWAYS in .make/check_types.py")
        own = "".join(f"    {name}: {value}\n" for owner, name, value in declared if owner == kind)
        if own:
            first, _, rest = part.partition("\n")
            part = f"{first}\n{own}{rest}"
        parts[place] = part
    return "".join([*(f"import {name}\n" for name in imports), *parts])


def _without_none(found: re.Match[str]) -> str:
    before, kept, end = (found[1], found[2], ":\n") if found[1] else (found[3], found[4], "\n")
    return before + " | ".join(part for part in kept.split(" | ") if part != "None") + end


def put(path: Path, text: str) -> None:
    """Write a file unless it says so already: mypy checks again what has changed."""
    path.parent.mkdir(parents=True, exist_ok=True)
    if not path.exists() or path.read_text(encoding="utf-8") != text:
        path.write_text(text, encoding="utf-8")


def lay_out() -> None:
    """Write what mypy is shown, and drop what is there no more."""
    groups = {
        node.name
        for path in modules()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ClassDef) and any(ast.unparse(base) == "PropertyGroup" for base in node.bases)
    }
    wanted = {FOLDER / PACKAGE / "__init__.py": ""}
    wanted |= {FOLDER / PACKAGE / path.relative_to(ROOT): shown(path, groups) for path in modules()}
    for package in ("bpy", "mathutils"):
        published = Path(sysconfig.get_path("purelib")) / f"{package}-stubs"
        for path in published.rglob("*.pyi"):
            wanted[FOLDER / package / path.relative_to(published)] = path.read_text(encoding="utf-8")
    for folder, changes in LEFT_OUT.items():
        path = FOLDER / folder / "__init__.pyi"
        for published_text, right in changes:
            if published_text not in wanted[path]:
                raise SystemExit(f"The stubs of {folder} do not say {published_text!r} any more: mend LEFT_OUT")
            wanted[path] = wanted[path].replace(published_text, right)
    types = FOLDER / "bpy" / "types" / "__init__.pyi"
    wanted[types] = stub(wanted[types], [entry for path in modules() for entry in registered(path)])
    for path in list(FOLDER.rglob("*.py*")):
        if path.is_symlink() or path not in wanted:
            path.unlink()
    for path, text in wanted.items():
        put(path, text)


def main() -> int:
    """Run mypy and name the files as they lie in the checkout."""
    lay_out()
    done = subprocess.run(
        [sys.executable, "-m", "mypy", *sys.argv[1:]], cwd=ROOT, stdout=subprocess.PIPE, text=True, check=False
    )
    say(done.stdout.replace(f"{FOLDER.relative_to(ROOT)}/{PACKAGE}/", "").rstrip())
    return done.returncode


if __name__ == "__main__":
    sys.exit(main())
