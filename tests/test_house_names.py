"""Names: a class, a function or a constant is defined in one module; all are spelled as in American English."""

import ast
import re
from collections import defaultdict
from collections.abc import Iterator

from tests.house import CODE, module_of, named, sources, tree_of

# What each module of a room has under one name, and who asks it there.
ONE_A_MODULE = {
    "CLASSES": "what a module registers with Blender: addon.registration",
    "SAVED": "where a module's settings are kept in a file: addon.saved",
    "SOURCE": "a thing to follow in a scene: addon.sources",
    "SUFFIXES": "the endings of a kind of file: analysis.sources",
    "SUMMARY": "what a command is for, in a line: analysis.options.parser",
    "EPILOG": "what the help of a command ends on: the command's own `add`",
    "EXAMPLE": "a call of a command: analysis.options.parser",
    "add": "declare a command's or a group's options: argparse",
    "run": "run a command: analysis.command",
    "main": "run a call: analysis here, Blender's own command in the add-on",
    "audit_each": "read files and audit each: analysis.day is handed one of them",
    "find": "a finding, or the events: analysis.findings, analysis.events",
    "hear": "a witness: analysis.events.find",
    "seen": "the facts that a witness tells: analysis.events.weights",
    "read": "a kind of file: analysis.sources",
    "track_from": "the track of a text of its kind: analysis.sources",
    "gravity": "a gravity that is typed, in a call and in a show's file",
    "length": "a length that is typed, in a call and in a show's file",
    "limits": "limits that are typed, in a call and in a show's file",
    "register": "Blender's word: addon.registration",
    "unregister": "Blender's word: addon.registration",
    "poll": "a thing to follow may be chosen: addon.source",
    "sample": "a thing to follow is read: addon.source",
    "check": "a thing to follow has keys: addon.source",
    "choose": "the thing that a scene follows: addon.choosing, addon.source",
    "place_now": "where a thing to follow is: addon.source",
    "keep": "make a value a scene's latest: addon.results and what else is kept beside the file",
    "forget": "drop what is kept beside the file: addon.registration",
    "of_scene": "the settings of a scene",
    "of_window": "the settings of all windows",
    "events": "the figures of events, of an audit and of a plan",
    "sizes": "the figures of lengths, of an audit and of a plan",
}

# Endings that differ in British English, and words, in identifiers of our own; CancelledError is Python's.
BRITISH = re.compile(
    "metres?(_|$)|centre|colour|grey|behaviou|neighbou|favou|honou|harbou|labell|modell|travell|cancell|licence|defence"
    "|(normal|linear|recogn|vector|organ|initial|optim|minim|maxim|summar|serial|visual|general|equal)is(e|ing|ation)"
    "|analys(e|ing)|catalogue|judgement|artefact|(to|back|for|after)wards"
)
NOT_OURS = {"CancelledError"}


def test_a_name_is_defined_in_one_module() -> None:
    assert list(named(ast.parse("LOW, HIGH = 1, 2\nclass Fit: pass\nMOST: int = 3\nlow = 4\ndef fit(): pass"))) == [
        "LOW", "HIGH", "Fit", "MOST", "fit"]  # fmt: skip
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
