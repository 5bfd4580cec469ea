"""Use: what analysis and addon make public is read by themselves; what tests alone read is not part of the product."""

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.house import CODE, imported, module_of, named, tree_of
from tests.test_house_names import ONE_A_MODULE

# What is public and read by none of our modules by its name: who reads it.
READ_BY_OTHERS = {
    "command_line": "the command's own process: addon.shots.review names it in a call",
}
MEMBERS_READ_BY_OTHERS = {
    "execute": "Blender: an operator",
    "invoke": "Blender: an operator",
    "modal": "Blender: an operator",
    "draw_item": "Blender: a row of a list",
    "filter_items": "Blender: the rows of a list",
    "draw_header_preset": "Blender: the right end of a panel's header",
    "filename_ext": "Blender: a file browser",
    "filter_glob": "Blender: a file browser",
    "filter_folder": "Blender: a file browser",
    "teardown": "Dask: a plugin of its workers",
    "THING": "whoever follows neither of the two others",
}
BUILT_NAMES = ("bl_", "color_")
"""Names that Blender reads of a class, and those of `preferences` that are built from the kinds of an overlay."""


def read(path: Path) -> Iterator[str]:
    """Yield the names that a module reads, as analysis.track.Track; of its own, those outside their definition."""
    home, modules = module_of(path), {}
    for node, _, module, name in imported(path):
        if name:
            yield f"{module}.{name}"
        for alias in node.names:
            if not name and module.endswith(alias.name):
                modules[alias.asname or alias.name] = module
    for top in tree_of(path).body:
        for node in ast.walk(top):
            if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load) and node.id != getattr(top, "name", ""):
                yield f"{home}.{node.id}"
            elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in modules:
                yield f"{modules[node.value.id]}.{node.attr}"


def members(tree: ast.Module) -> Iterator[str]:
    """Yield the methods and fields of a module's classes."""
    for one in ast.walk(tree):
        for node in one.body if isinstance(one, ast.ClassDef) else ():
            if isinstance(node, ast.FunctionDef):
                yield node.name
            elif isinstance(node, ast.AnnAssign | ast.Assign):
                targets = node.targets if isinstance(node, ast.Assign) else [node.target]
                yield from (target.id for target in targets if isinstance(target, ast.Name))


def words(tree: ast.Module) -> Iterator[str]:
    """Yield the attributes that a module reads, and the words of its strings: these read Blender's properties."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Load):
            yield node.attr
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield from node.value.split(".")


def test_what_is_public_is_read_by_the_product() -> None:
    every = {name for path in CODE for name in read(path)}
    assert {"analysis.track.Track", "analysis.finding.SEVERITIES", "addon.results.latest"} <= every
    unread = {name: module_of(path) for path in CODE for name in named(tree_of(path))
              if name[0] != "_" and f"{module_of(path)}.{name}" not in every and name not in ONE_A_MODULE}  # fmt: skip
    assert set(unread) == set(READ_BY_OTHERS), unread


def test_a_class_has_no_member_that_tests_alone_read() -> None:
    every = {word for path in CODE for word in words(tree_of(path))}
    unread = {name: module_of(path) for path in CODE for name in members(tree_of(path))
              if name[0] != "_" and name not in every and not name.startswith(BUILT_NAMES)}  # fmt: skip
    assert set(unread) == set(MEMBERS_READ_BY_OTHERS), unread
