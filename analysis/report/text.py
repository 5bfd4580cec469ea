"""The audits of a day as plain text for a terminal: a table, one row a jump, then what was found."""

import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

from ..dailies.day import Day
from ..dailies.rows import RANK_CLEAN, RANK_DOUBTFUL, RANK_NO_JUMP, RANK_UNREADABLE, DayRow
from ..finding import SEVERITIES
from ..track import EVENTS
from .labels import ShotLabel, cut, figure_text, frame_text, printable, short_frame

SENTENCE_COLUMNS = 100
"""Columns of sentences at most."""
LEAST_NAME = 12
ANSI_COLORS = {"fix": "1;31", "check": "33", "note": "36"}
"""ANSI colors of the severities; the words stand there as well."""
PIN = "*"
"""Marks a frame that was pinned by hand."""
TABLE_COLUMNS = (
    ("takeoff", 8), ("apex", 7), ("landing", 8), ("airtime", 8), ("height", 9), ("push ratio", 11), ("air pace", 9),
    ("agreement", 10),
)  # fmt: skip
FINDINGS = 24
"""Columns that the gravest finding takes, near enough."""


def as_text(day: Day, *, width: int | None = None, color: bool = False) -> str:
    """Write a day as a text with a final newline.

    width: columns there are; names are cut in their middle only where a table does not fit into them. None: as
    many as it takes.
    """
    room = min(width or SENTENCE_COLUMNS, SENTENCE_COLUMNS)
    named = [(_name(row), row) for row in day.rows]
    lines = [*_table(named, width), *_pins(named, room), *_findings(day, named, room, color), *_notes(named, room)]
    lines += ["", day.summary()]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _name(row: DayRow) -> ShotLabel:
    """Return the shot; with its track where it holds several."""
    return ShotLabel(printable(row.label), printable(row.track_name) if len(row.shot["tracks"]) > 1 else "")


def _table(named: list[tuple[ShotLabel, DayRow]], width: int | None) -> Iterator[str]:
    beside = 4 + sum(column for _, column in TABLE_COLUMNS) + 2 + FINDINGS
    widest = max([len(str(name)) for name, _ in named] + [len("shot")])
    names = widest if width is None else min(widest, max(width - beside, LEAST_NAME))
    yield f"{'shot':<{names}}   #" + "".join(f"{head:>{column}}" for head, column in TABLE_COLUMNS) + "  findings"
    for name, row in named:
        start = f"{name.cut(names):<{names}} {row.number or '':>3}"
        if row.jump is not None:
            text = start + _figures(row.jump)
            verdict = _verdict(row)
            yield f"{text}  {cut(verdict, max(width - len(text) - 2, LEAST_NAME)) if width else verdict}"
        else:
            yield from _long_row(start[: names + 1] + "  ", _without_jump(row), width)


def _long_row(start: str, text: str, width: int | None) -> list[str]:
    wide = max(min(width or SENTENCE_COLUMNS, SENTENCE_COLUMNS), len(start) + 30)
    return textwrap.wrap(printable(text), wide, initial_indent=start, subsequent_indent=" " * len(start))


def _without_jump(row: DayRow) -> str:
    if row.rank == RANK_UNREADABLE:
        return f"unreadable: {row.shot.get('reason', '')}"
    return "no jump" if row.track else "; ".join(("no track", *row.shot.get("notes", ())))


def _figures(jump: Mapping[str, Any]) -> str:
    cells = [_frame_cell(jump[name], TABLE_COLUMNS[place][1] - 1) for place, name in enumerate(EVENTS[1:4])]
    cells += [
        figure_text(jump["airtime_frames"], digits=1),
        figure_text(jump["jump_height"], " m"),
        *(figure_text(jump[name]) for name in ("push_ratio", "air_pace", "agreement")),
    ]
    return "".join(f" {cell:>{column - 1}}" for cell, (_, column) in zip(cells, TABLE_COLUMNS, strict=True))


def _frame_cell(event: Mapping[str, Any], width: int) -> str:
    """Return the frame of an event, marked where it is pinned and there is room: the tenth goes first."""
    text = short_frame(event["frame"])
    marked = (f"{text}{PIN}", f"{event['frame']:.0f}{PIN}") if event.get("pinned") else ()
    return next((cell for cell in marked if len(cell) <= width), text)


def _verdict(row: DayRow) -> str:
    if row.rank == RANK_DOUBTFUL:
        return "doubtful"
    if row.rank in (RANK_CLEAN, RANK_NO_JUMP):
        return "none"
    more = f" +{len(row.findings) - 1}" if len(row.findings) > 1 else ""
    return f"{row.findings[0]['severity']} {row.findings[0]['code']}{more}"


def _pins(named: list[tuple[ShotLabel, DayRow]], room: int) -> Iterator[str]:
    """Tell what was pinned by hand, a line a jump."""
    blank = True
    for name, row in named:
        pins = [(event, row.jump[event]) for event in EVENTS if row.jump and (row.jump[event] or {}).get("pinned")]
        if not pins:
            continue
        if blank:
            yield ""
        blank = False
        frames = ", ".join(f"{event} {frame_text(pin['frame'])}" for event, pin in pins)
        said = f"{PIN} pinned by hand in {name.cut(40)}, jump {row.number}: {frames}"
        yield from textwrap.wrap(printable(said), room, subsequent_indent="  ")


def _findings(day: Day, named: list[tuple[ShotLabel, DayRow]], room: int, color: bool) -> Iterator[str]:
    for name, row in named:
        if not row.findings:
            continue
        note = day.notes.get(row.key)
        word = f" ({note.word})" if note is not None and note.word else ""
        doubt = " (it may be no jump)" * (row.rank == RANK_DOUBTFUL)
        yield from ("", f"{name.cut(room - 40)}, jump {row.number}{word}{doubt}")
        said: set[str] = set()
        for finding in row.findings:
            # Findings of one jump may share their mend.
            yield from _finding(finding, room, color, mend="" if finding["mend"] in said else finding["mend"])
            said.add(finding["mend"])


def _finding(finding: Mapping[str, Any], room: int, color: bool, *, mend: str) -> Iterator[str]:
    severity = f"{finding['severity']:<{max(map(len, SEVERITIES))}}"
    tint = f"\x1b[{ANSI_COLORS[finding['severity']]}m" if color else ""
    first, last = map(frame_text, finding["frames"])
    head = f"{severity}  {finding['code']}, frames {first} to {last}: "
    first_line, *rest = textwrap.wrap(
        printable(head + finding["message"]), room, initial_indent="  ", subsequent_indent=" " * 9
    )
    end = 2 + len(severity)
    yield f"  {tint}{severity}\x1b[0m{first_line[end:]}" if color else first_line
    yield from rest
    if mend:
        yield from textwrap.wrap(
            printable(mend), room, initial_indent=" " * 7 + "→ ", subsequent_indent=" " * 9
        )


def _notes(named: list[tuple[ShotLabel, DayRow]], room: int) -> Iterator[str]:
    """Yield each note once, with whom it concerns."""
    whose: dict[str, list[ShotLabel]] = {}
    for name, row in named:
        about_shot = row.shot.get("notes", ()) if row.track else ()
        for note in (*about_shot, *(row.track["notes"] if row.track else ())):
            if name not in whose.setdefault(note, []):
                whose[note].append(name)
    if whose:
        yield ""
    for note, names in whose.items():
        who = ", ".join(name.cut(40) for name in names[:2]) + (
            f" and {len(names) - 2} more" if len(names) > 2 else ""
        )
        yield from textwrap.wrap(printable(f"Note on {who}: {note}"), room, subsequent_indent="  ")
