"""What every operator owes the person who points at it, read from the syntax trees."""

import ast
from collections.abc import Iterator

import pytest

from tests.house import sources, tree_of

# The first word of an operator's file says whether it changes the scene: its undo flag, None for none.
UNDO = dict.fromkeys(("audit", "drop", "explain", "forecast", "hold", "mend", "open", "review", "toggle"))
UNDO |= dict.fromkeys(("choose", "go"), "UNDO_GROUPED")
UNDO |= dict.fromkeys(
    ("clear", "follow", "import", "jump", "list", "map", "measure", "no", "pin", "plan", "retime", "show"), "UNDO")

CLASSES = {node.name: (path, node) for path in sources("addon")
           for node in tree_of(path).body if isinstance(node, ast.ClassDef)}


def lineage(name: str) -> Iterator[ast.ClassDef]:
    if name in CLASSES:
        yield CLASSES[name][1]
        for base in CLASSES[name][1].bases:
            yield from lineage(ast.unparse(base).split(".")[-1])


def settings_of(name: str) -> dict[str, ast.expr]:
    """Collect the class's own assignments and those it inherits, the nearest first."""
    found: dict[str, ast.expr] = {}
    for node in lineage(name):
        for line in node.body:
            if isinstance(line, ast.Assign):
                found.setdefault(ast.unparse(line.targets[0]), line.value)
    return found


OPERATORS = [name for name in CLASSES if "_OT_" in name]


def speaks(node: ast.AST) -> bool:
    return any(isinstance(part, ast.Attribute) and part.attr == "poll_message_set" for part in ast.walk(node))


SPEAKERS = {node.name for path in sources("addon") for node in ast.walk(tree_of(path))
            if isinstance(node, ast.FunctionDef) and speaks(node)}


@pytest.mark.parametrize("name", OPERATORS)
def test_each_operator_describes_itself_and_says_why_it_is_gray(name: str) -> None:
    assigned = settings_of(name)
    described = ast.literal_eval(assigned["bl_description"])
    assert described and not described.endswith((".", "!", " ")), described
    polls = [line for node in lineage(name) for line in node.body
             if isinstance(line, ast.FunctionDef) and line.name == "poll"]
    assert polls, f"{name} has no poll"
    called = {part.id if isinstance(part, ast.Name) else part.attr for part in ast.walk(polls[0])
              if isinstance(part, ast.Name | ast.Attribute)}
    assert speaks(polls[0]) or called & SPEAKERS, f"{name}'s poll gives no reason"


@pytest.mark.parametrize("name", OPERATORS)
def test_each_operator_has_the_undo_flag_of_its_kind(name: str) -> None:
    path, flags = CLASSES[name][0], ast.literal_eval(settings_of(name)["bl_options"])
    kind = path.stem.split("_")[0]
    assert kind in UNDO, f"{path.name}: say in UNDO whether this kind of operator changes the scene"
    assert flags & {"UNDO", "UNDO_GROUPED"} == {UNDO[kind]} - {None}, f"{name}: {flags}"
