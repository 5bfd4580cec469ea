"""The parser of a call: argparse's, with the nearest right name for a wrong one, whatever stderr is tied to."""

import argparse
import sys
from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from types import ModuleType
from typing import Any, NoReturn

from ..terminal import say, tell
from ..version import leapwright_version

PROGRAM = "leapwright"
HELP = "help"
DESCRIPTION = "Leapwright tells whether a jump's push off the ground fits its time in the air."
CAUTION = "It judges drawings of motion; it is not for training, medical or safety decisions about real jumpers."


class Parser(argparse.ArgumentParser):
    """An ArgumentParser that takes no abbreviations, and whose messages never fail."""

    def __init__(self, *args: object, **options: object) -> None:
        super().__init__(*args, **{"allow_abbrev": False, **options})  # type: ignore[arg-type]  # as they were given

    def error(self, message: str) -> NoReturn:
        """Say what is wrong with the call, and end with 2."""
        tell(f'{self.prog}: {message}\n"{self.prog} --help" says what it takes')
        raise SystemExit(2)

    def _print_message(self, message: str, file: Any = None) -> None:
        if message:
            say(message, file or sys.stdout)


def parse(words: Sequence[str], commands: Iterable[ModuleType]) -> argparse.Namespace:
    """Read a call. Raises SystemExit: 0 for one that only wants help, which was printed; 2 for a wrong one."""
    commands = tuple(commands)
    whole, parts = _parsers(commands)
    words = list(words)
    if words[:1] == [HELP]:
        words = [*words[1:2], "--help"] if words[1:] else []
    if not words or words == ["--help"] or words == ["-h"]:
        say(overview(commands), sys.stdout)
        raise SystemExit(0)
    if not words[0].startswith("-"):
        if words[0] not in parts:
            whole.error(f'there is no command "{words[0]}"{nearest_word(words[0], [*parts, HELP])}')
        _check_options(parts[words[0]], words[1:])
    return whole.parse_args(words)


def overview(commands: Iterable[ModuleType]) -> str:
    """Say what each command is for, with an example."""
    lines = [DESCRIPTION, ""]
    for command in commands:
        name = command.__name__.rpartition(".")[2] if not hasattr(command, "NAME") else command.NAME
        lines += [f"  {PROGRAM} {name:<8} {command.SUMMARY}", f"      {command.EXAMPLE}", ""]
    lines += [f'"{PROGRAM} COMMAND --help" says more of each; "{PROGRAM} --version" which this is.', CAUTION]
    return "\n".join(lines) + "\n"


def nearest_word(word: str, known: Iterable[str]) -> str:
    """End a sentence about an unknown word: with the known one it comes nearest to, or with all there are.

    >>> nearest_word("audti", ["audit", "plan"]), nearest_word("x", ["audit", "plan"])
    ('; did you mean audit?', '; there are audit, plan')
    """
    known = list(known)
    near = get_close_matches(word, known, 1)
    return f"; did you mean {near[0]}?" if near else f"; there are {', '.join(known)}"


def _parsers(commands: Iterable[ModuleType]) -> tuple[Parser, Mapping[str, Parser]]:
    """Return the parser of the whole command line, and those of its commands by name."""
    whole = Parser(prog=PROGRAM, description=DESCRIPTION, epilog=CAUTION)
    whole.add_argument("--version", action="version", version=f"{PROGRAM} {leapwright_version()}")
    subparsers = whole.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for command in commands:
        command.add(subparsers)
    return whole, subparsers.choices


def _check_options(parser: Parser, words: Iterable[str]) -> None:
    """Refuse an unknown option before anything else is missed."""
    known = [name for action in parser._actions for name in action.option_strings if name.startswith("--")]
    for word in words:
        name = word.partition("=")[0]
        if word == "--":
            return
        if name.startswith("--") and name not in known:
            parser.error(f"there is no option {name}{nearest_word(name, known)}")
