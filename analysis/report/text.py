"""The audits of a day as plain text for a terminal: a table, one row a jump, then what was found."""

import textwrap
from collections.abc import Iterator, Sequence

from ..audit import Audit
from ..figures import value_of
from ..finding import SEVERITIES, Finding
from ..jump import Event, Jump
from ..shot import Shot
from .labels import (
    counted,
    cut,
    cut_label,
    figure_text,
    frame_text,
    pinned_events,
    printable,
    short_frame,
    shot_labels,
    track_label,
)

WIDTH = 100
NAME_WIDTH = 22
COLOURS = {"fix": "1;31", "check": "33", "note": "36"}
"""ANSI colours of the severities; the words stand there as well."""
PIN = "*"
"""Marks a frame that was pinned by hand."""

COLUMNS = (
    ("take-", "off", 6), ("", "apex", 6), ("land-", "ing", 6), ("airtime", "frames", 8),
    ("jump", "height", 8), ("push", "ratio", 6), ("air", "pace", 6), ("agree-", "ment", 7),
)  # fmt: skip


def as_text(shots: Sequence[Shot], *, colour: bool = False) -> str:
    """Write the shots as a text of at most 100 columns, with a final newline."""
    labels = shot_labels(shots)
    named = [
        (track_label(label, shot, audit.name), audit)
        for label, shot in zip(labels, shots, strict=True)
        for audit in shot.audits
    ]
    lines = [
        *_table(labels, shots),
        *_pins(named),
        *_findings(named, colour),
        *_notes(labels, shots, named),
        "",
        summary(shots),
    ]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def summary(shots: Sequence[Shot]) -> str:
    """Count shots, jumps, findings by severity and what could not be read, in one line."""
    jumps = [jump for shot in shots for audit in shot.audits for jump in audit.jumps]
    ranks = [finding.severity for jump in jumps for finding in jump.findings]
    parts = [counted(len(shots), "shot"), counted(len(jumps), "jump")]
    parts += [f"{ranks.count(severity)} to {severity}" for severity in ("fix", "check") if severity in ranks]
    parts += [counted(ranks.count("note"), "note")] if "note" in ranks else []
    unread = sum(shot.status == "unreadable" for shot in shots)
    return ", ".join(parts + [f"{unread} unreadable"] * bool(unread))


def _table(labels: Sequence[str], shots: Sequence[Shot]) -> Iterator[str]:
    names = [
        track_label(label, shot, audit.name)
        for label, shot in zip(labels, shots, strict=True)
        for audit in shot.audits or [None]
        if audit is not None
    ]
    width = min(NAME_WIDTH, max(map(len, [*names, *labels, "shot"])))
    for first, row in (("", 0), ("shot", 1)):
        yield (
            f"{first:<{width}} {' #'[row]:>3}"
            + "".join(f"{column[row]:>{column[2]}}" for column in COLUMNS)
            + ("  findings" * row)
        )
    for label, shot in zip(labels, shots, strict=True):
        yield from _shot_rows(label, shot, width)


def _shot_rows(label: str, shot: Shot, width: int) -> Iterator[str]:
    if shot.reason is not None:
        yield from _long_row(label, f"unreadable: {shot.reason}", width)
    elif not shot.audits:
        yield from _long_row(label, "; ".join(("no track", *shot.notes)), width)
    for audit in shot.audits:
        name = track_label(label, shot, audit.name)
        if not audit.jumps:
            yield from _long_row(name, "no jump", width)
        for number, jump in enumerate(audit.jumps, 1):
            yield f"{cut_label(name, width):<{width}} {number:>3}" + _jump_cells(jump, width + 4)


def _long_row(name: str, text: str, width: int) -> list[str]:
    first, rest = f"{cut_label(name, width):<{width}}   ", " " * (width + 3)
    return textwrap.wrap(printable(text), WIDTH, initial_indent=first, subsequent_indent=rest)


def _jump_cells(jump: Jump, before: int) -> str:
    cells = (
        *(
            _frame_cell(event, column[2] - 1)
            for event, column in zip((jump.takeoff, jump.apex, jump.landing), COLUMNS, strict=False)
        ),
        figure_text(value_of(jump, "airtime_frames"), digits=1),
        figure_text(value_of(jump, "jump_height"), " m"),
        figure_text(value_of(jump, "push_ratio")),
        figure_text(value_of(jump, "air_pace")),
        figure_text(value_of(jump, "agreement")),
    )
    text = "".join(f" {cell:>{column[2] - 1}}" for cell, column in zip(cells, COLUMNS, strict=True))
    return text + "  " + (_worst(jump.findings, WIDTH - before - len(text) - 2) if jump.findings else "none")


def _frame_cell(event: Event, width: int) -> str:
    """The frame of an event, marked where it is pinned and there is room: the tenth goes first."""
    text = short_frame(event.frame)
    marked = (f"{text}{PIN}", f"{event.frame:.0f}{PIN}") if event.pinned else ()
    return next((cell for cell in marked if len(cell) <= width), text)


def _pins(named: Sequence[tuple[str, Audit]]) -> Iterator[str]:
    """What was pinned by hand, a line a jump."""
    pinned = [
        (name, number, pins)
        for name, audit in named
        for number, jump in enumerate(audit.jumps, 1)
        if (pins := pinned_events(jump))
    ]
    if pinned:
        yield ""
    for name, number, pins in pinned:
        frames = ", ".join(f"{event} {frame_text(pin.frame)}" for event, pin in pins.items())
        said = f"{PIN} pinned by hand in {cut_label(name, 40)}, jump {number}: {frames}"
        yield from textwrap.wrap(printable(said), WIDTH, subsequent_indent="  ")


def _worst(findings: Sequence[Finding], room: int) -> str:
    more = f" +{len(findings) - 1}" if len(findings) > 1 else ""
    return cut(f"{findings[0].severity} {findings[0].code}", room - len(more)) + more


def _findings(named: Sequence[tuple[str, Audit]], colour: bool) -> Iterator[str]:
    for name, audit in named:
        for number, jump in enumerate(audit.jumps, 1):
            if jump.findings:
                yield ""
                yield f"{cut_label(name, WIDTH - 12)}, jump {number}"
            for finding in jump.findings:
                yield from _finding(finding, colour)


def _finding(finding: Finding, colour: bool) -> Iterator[str]:
    severity = f"{finding.severity:<{max(map(len, SEVERITIES))}}"
    tint = f"\x1b[{COLOURS[finding.severity]}m" if colour else ""
    first, last = map(frame_text, finding.frames)
    head = f"{severity}  {finding.code}, frames {first} to {last}: "
    message, *rest = textwrap.wrap(
        printable(head + finding.message), WIDTH, initial_indent="  ", subsequent_indent=" " * 9
    )
    yield message.replace(severity, f"{tint}{severity}\x1b[0m", 1) if colour else message
    yield from rest
    if finding.mend:
        yield from textwrap.wrap(
            printable(finding.mend), WIDTH, initial_indent=" " * 7 + "→ ", subsequent_indent=" " * 9
        )


def _notes(labels: Sequence[str], shots: Sequence[Shot], named: Sequence[tuple[str, Audit]]) -> Iterator[str]:
    """Each note once, with whom it concerns."""
    whose: dict[str, list[str]] = {}
    for label, shot in zip(labels, shots, strict=True):
        for note in shot.notes if shot.audits else ():
            whose.setdefault(note, []).append(label)
    for name, audit in named:
        for note in audit.notes:
            whose.setdefault(note, []).append(name)
    if whose:
        yield ""
    for note, names in whose.items():
        who = ", ".join(cut_label(name, 40) for name in names[:2]) + (
            f" and {len(names) - 2} more" if len(names) > 2 else ""
        )
        yield from textwrap.wrap(printable(f"Note on {who}: {note}"), WIDTH, subsequent_indent="  ")
