"""The options of a review: against which day, with which notes, in which order."""

import argparse
from pathlib import Path

from ..dailies.day import ORDERS
from ..dailies.notes import NOTES_FILE
from . import values


def add(group: argparse._ArgumentGroup) -> None:
    """Declare the options."""
    group.add_argument("--against", type=values.file_path, metavar="OLDER",
                       help="an earlier day's JSON, page or report folder: tell what got better or worse")  # fmt: skip
    group.add_argument("--notes", type=values.file_path, metavar="FILE",
                       help=f"what was said of jumps ({NOTES_FILE} beside the page or --against)")  # fmt: skip
    group.add_argument("--sort", choices=tuple(ORDERS), default="gravest", metavar="BY",
                       help=f"order of the table and the page: {', '.join(ORDERS)} (gravest)")  # fmt: skip
    group.add_argument("--open", action="store_true", help="open the page when it is written")


def notes_file(arguments: argparse.Namespace) -> Path | None:
    """Return the file of notes of a call: the one it names, one beside the page, or one beside what it compares
    with.
    """
    if arguments.notes is not None:
        return arguments.notes
    beside = [arguments.report] if arguments.report is not None else []
    if arguments.against is not None:
        beside.append(arguments.against if arguments.against.is_dir() else arguments.against.parent)
    return next((folder / NOTES_FILE for folder in beside if (folder / NOTES_FILE).is_file()), None)
