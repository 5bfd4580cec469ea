"""No sentence decides: nothing asks a message, a note or a label what it says; facts are typed, words come last."""

import ast
from collections.abc import Iterator

import pytest

from tests.house import CODE, ROOT, module_of, tree_of

ASKING = {"startswith", "endswith", "split", "rsplit", "partition", "rpartition", "removeprefix", "removesuffix",
          "find", "rfind", "replace", "splitlines", "isdigit"}
"""Methods of a text that ask what it says, or take it apart."""
PATTERNS = {"match", "search", "fullmatch", "findall", "finditer", "split", "sub"}
SENTENCES = {"note", "notes", "message", "mend_text", "mend_said", "remark", "remarks", "sentence", "finding", "label",
             "reason", "refusal", "refused", "why", "said", "warning", "template", "error", "phrase", "text"}
"""Names that hold a sentence; `text` counts only as an attribute, as of a note, since a plain `text` is what was read.
"""
OF_OTHERS = {
    "addon.shots.bvh": "what Blender's importers say, in one line",
    "addon.shots.shot": "what Blender says of a file that it cannot open, in one line",
    "addon.retiming.file": "what Blender says of a file that it cannot save, in one line",
    "addon.shots.worker": "the last line of a traceback",
    "addon.operators.review_shots": "the last line of that process",
    "addon.sidebar.figures": "lengths in a template, to give them in the scene's own unit",
    "analysis.errors": "braces of a template",
}
"""Modules that take a sentence apart in order to show it, each with the reason; none of them decides by it."""


def named(node: ast.AST) -> Iterator[str]:
    """Yield the names that an expression takes a text from: `note`, `audit.notes[-1]`, `str(error)`."""
    if isinstance(node, ast.Name) and node.id != "text":
        yield node.id
    elif isinstance(node, ast.Attribute):
        yield node.attr
    elif isinstance(node, ast.Subscript):
        yield from named(node.value)
    elif isinstance(node, ast.Call):
        of_text = isinstance(node.func, ast.Attribute) and node.func.attr in {"lower", "strip", "casefold", "upper"}
        yield from named(node.func.value if of_text else node.args[0]) if of_text or (
            ast.unparse(node.func) == "str" and node.args) else ()


def asked_of_sentences(tree: ast.AST) -> list[tuple[int, str]]:
    """List where a sentence is asked what it says: line and expression."""
    found = []
    for node in ast.walk(tree):
        asked: list[ast.AST] = []
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            of = node.func.value
            if node.func.attr in ASKING:
                asked.append(of)
            if node.func.attr in PATTERNS and not isinstance(of, ast.Constant):
                asked += node.args
        elif isinstance(node, ast.Compare):
            texts = [side for side in (node.left, *node.comparators)
                     if isinstance(side, ast.Constant) and isinstance(side.value, str) and " " in side.value]
            if texts or (isinstance(node.ops[0], ast.In | ast.NotIn) and isinstance(node.left, ast.Constant)
                         and isinstance(node.left.value, str)):
                asked += [node.left, *node.comparators]
        if any(name in SENTENCES for one in asked for name in named(one)):
            found.append((node.lineno, ast.unparse(node)[:90]))
    return found


@pytest.mark.parametrize("path", CODE, ids=module_of)
def test_no_sentence_decides(path) -> None:
    wrong = [f"{path.relative_to(ROOT)}:{line}: {said}" for line, said in asked_of_sentences(tree_of(path))]
    assert not wrong or module_of(path) in OF_OTHERS


def test_whoever_may_take_sentences_apart_does() -> None:
    """No module may stay on the list without need."""
    assert not [name for name in OF_OTHERS if not any(
        asked_of_sentences(tree_of(path)) for path in CODE if module_of(path) == name)]


@pytest.mark.parametrize("code", [
    'next((note for note in audit.notes if note.startswith("marks")), UNUSED)',
    'row.label.endswith("Frames")',
    'row.said.startswith("marks") or True',
    '"center of mass" in track.notes',
    'str(refusal).split(": ")',
    're.search("takeoff", finding.message)',
    'role.label.split()[-1]',
    'PATTERN.match(note.text)',
    'note.lower().find("feet") >= 0',
    'finding.message == "nothing is off"',
])
def test_each_way_to_ask_a_sentence_is_seen(code: str) -> None:
    """The rule finds each of these lines; they stood in the project once, or might have."""
    assert asked_of_sentences(ast.parse(code))


@pytest.mark.parametrize("code", [
    'note.said is Said.MARKS_MISSING',
    'name.partition("/")[0]',
    'path.name.endswith(".bvh")',
    'finding.code in codes',
    'text.startswith("#")',
])
def test_facts_and_names_may_be_asked(code: str) -> None:
    assert not asked_of_sentences(ast.parse(code))


NOT_VERBS = {"The", "A", "An", "Whether", "How", "What", "Which", "Where", "That", "All", "Each", "Every", "Those"}


@pytest.mark.parametrize("path", CODE, ids=module_of)
def test_what_a_function_does_begins_with_a_verb(path) -> None:
    """A property's docstring says what it is, a function's what it does."""
    functions = [node for node in ast.walk(tree_of(path)) if isinstance(node, ast.FunctionDef)
                 and not any("property" in ast.unparse(mark) for mark in node.decorator_list)]
    told = [(node.lineno, (ast.get_docstring(node) or "Do").split()[0]) for node in functions]
    assert not [f"{path.relative_to(ROOT)}:{line}: {word}" for line, word in told if word in NOT_VERBS]
