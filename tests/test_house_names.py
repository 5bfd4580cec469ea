"""Names: a class or a constant is defined in one module; identifiers are spelled as Americans spell them."""

import ast
import re
from collections import defaultdict
from collections.abc import Iterator

from tests.house import CODE, module_of, sources, tree_of

# What every module of a room must have under one name, and who reads it there.
ONE_A_MODULE = {
    "CLASSES": "what a module registers with Blender: addon.registration",
    "SAVED": "where a module's settings are kept in a file: addon.saved",
    "SOURCE": "a thing to follow in a scene: addon.sources",
    "LABEL": "the name of a kind of file: analysis.sources",
    "SUFFIXES": "the endings of a kind of file: analysis.sources",
    "SUMMARY": "what a command is for, in a line: analysis.options.parser",
    "EPILOG": "what the help of a command ends on: the command's own `add`",
    "EXAMPLE": "a call of a command: analysis.options.parser",
}

# Endings that differ in British English, and words, in identifiers of our own; CancelledError is Python's.
BRITISH = re.compile(
    "metres?(_|$)|centre|colour|grey|behaviou|neighbou|favou|honou|harbou|labell|modell|travell|cancell|licence|defence"
    "|(normal|linear|recogn|vector|organ|initial|optim|minim|maxim|summar|serial|visual|general|equal)is(e|ing|ation)"
    "|analys(e|ing)|catalogue|judgement|artefact|(to|back|for|after)wards"
)
NOT_OURS = {"CancelledError"}


def named(tree: ast.Module) -> Iterator[str]:
    """Yield the public classes and the constants that a module defines."""
    for node in tree.body:
        if isinstance(node, ast.ClassDef):
            yield node.name
        targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
        for target in targets if isinstance(node, ast.Assign | ast.AnnAssign) else ():
            names = [one.id for one in ast.walk(target) if isinstance(one, ast.Name)]
            yield from (name for name in names if name.isupper())


def test_a_class_and_a_constant_are_defined_in_one_module() -> None:
    assert list(named(ast.parse("LOW, HIGH = 1, 2\nclass Fit: pass\nMOST: int = 3\nlow = 4"))) == [
        "LOW", "HIGH", "Fit", "MOST"]  # fmt: skip
    homes = defaultdict(set)
    for path in CODE:
        for name in named(tree_of(path)):
            homes[name].add(module_of(path))
    twice = {name: sorted(modules) for name, modules in homes.items() if len(modules) > 1 and name[0] != "_"}
    assert not {name: modules for name, modules in twice.items() if name not in ONE_A_MODULE}
    assert set(ONE_A_MODULE) <= set(twice), "a name of the list is defined once: take it out"


def identifiers(tree: ast.Module) -> Iterator[str]:
    """Yield what a module names: variables, arguments, attributes, functions, classes and keywords."""
    for node in ast.walk(tree):
        for field in ("id", "arg", "attr", "name", "asname"):
            name = getattr(node, field, None)
            if isinstance(name, str):
                yield name


def test_identifiers_are_spelled_as_americans_do() -> None:
    assert set(identifiers(ast.parse("def grey(metres): return metre.x"))) == {"grey", "metres", "metre", "x"}
    assert all(map(BRITISH.search, ("centre_of_mass", "in_metres", "metre", "_linearised", "backwards", "normalising")))
    assert not any(map(BRITISH.search, ("center_of_mass", "meters", "symmetrical", "exercise", "rise", "analysis")))
    paths = [*CODE, *sources("tests", ".make")]
    assert not {(module_of(path), name) for path in paths for name in (path.stem, *identifiers(tree_of(path)))
                if BRITISH.search(name.lower()) and name not in NOT_OURS}
