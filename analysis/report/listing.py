"""The table of the day as HTML: a row a jump or shot, in the order to look at them, with what filters ask for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

from ..dailies.rows import RANK_CLEAN, RANK_DOUBTFUL, RANK_NO_JUMP, RANK_UNREADABLE, DayRow
from ..finding import SEVERITIES
from .card import safe
from .labels import figure_text

LISTING_COLUMNS = (
    ("look", "to look at"), ("shot", "shot"), ("character", "character"), ("jump", "#"),
    ("airtime", "airtime (f)"), ("height", "height (m)"), ("pace", "air pace"), ("agreement", "agree&shy;ment"),
    ("certainty", "certainty"), ("change", "change"), ("said", "said"),
)  # fmt: skip
LISTING_FIGURES = (("airtime", "airtime_frames", 1), ("height", "jump_height", 2), ("pace", "air_pace", 2),
           ("agreement", "agreement", 2))  # fmt: skip
RANK_CLASSES = {RANK_UNREADABLE: "unread", RANK_CLEAN: "clean", RANK_DOUBTFUL: "doubt", RANK_NO_JUMP: "still"}
RANK_WORDS = {RANK_UNREADABLE: "unreadable", RANK_CLEAN: "none", RANK_DOUBTFUL: "doubtful", RANK_NO_JUMP: "no jump"}


@dataclass(frozen=True, slots=True)
class Line:
    """A row of the day where it stands on the page.

    rank     how soon to look at it, what is meant left out
    change   since an earlier day; empty without one
    word     a reviewer's
    """

    row: DayRow
    place: int
    rank: float
    change: str = ""
    word: str = ""

    @property
    def kind(self) -> str:
        """The class of the row and its card: its severity, or what it is without one."""
        return RANK_CLASSES.get(self.rank) or SEVERITIES[int(self.rank)]


def listing(lines: Sequence[Line]) -> str:
    """Write the table; columns for changes and words are left out where no row has one or can have one."""
    dull = _dull(lines)
    top = "".join(
        f"<th scope=col data-sort={name}{' aria-sort=ascending' * (name == 'look')}>"
        f"<button type=button>{words}</button>"
        for name, words in LISTING_COLUMNS
        if name not in dull
    )
    body = "\n".join(_row(line, dull) for line in lines)
    return f"<table id=day><caption hidden>Jumps of the day</caption><thead><tr>{top}<tbody>\n{body}</table>"


def _dull(lines: Sequence[Line]) -> set[str]:
    """Return the columns that would say the same in every row."""
    said: dict[str, set[Any]] = {
        "character": {line.row.character for line in lines if line.row.track},
        "jump": {line.row.number for line in lines if line.row.jump},
        "certainty": {line.row.certainty for line in lines if line.row.jump},
        "change": {line.change for line in lines},
    }
    return {name for name, values in said.items() if len(values) < 2 and (name != "change" or values <= {""})}


def _row(line: Line, dull: set[str]) -> str:
    row, place = line.row, line.place
    known = {
        "shot": row.label, "track": row.track_name, "number": str(row.number or ""),
        "sequence": row.name.sequence, "certainty": row.certainty,
        "finding": " ".join(finding["code"] for finding in row.findings), "change": line.change, "word": line.word,
        "severity": "unreadable" if row.rank == RANK_UNREADABLE else "", "jump": _jump(row),
    }  # fmt: skip
    data = "".join(f' data-{name}="{safe(value)}"' for name, value in known.items() if value)
    cells = "".join(cell for name, cell in _cells(line) if name not in dull)
    return f'<tr id=r{place} class={line.kind} data-rank={line.rank:g}{data}>{cells}'


def _jump(row: DayRow) -> str:
    """Return its frames of takeoff and landing, by which a note finds it again; empty without a jump."""
    if row.jump is None:
        return ""
    return " ".join(f"{row.jump[name]['frame']:.9g}" for name in ("takeoff", "landing"))


def _cells(line: Line) -> Iterator[tuple[str, str]]:
    row = line.row
    yield "look", f"<td class=look data-v={line.place}>{_verdict(row)}"
    take = f" <small>{safe(row.name.take)}</small>" * (bool(row.name.take) and row.label == row.name.stem)
    label = row.name.base if take else row.label
    yield "shot", f'<th scope=row data-v="{safe(row.label)}"><a href=#c{line.place}>{_breakable(label)}{take}</a>'
    yield "character", f"<td>{safe(row.character)}"
    yield "jump", f"<td class=n>{row.number or ''}"
    for name, field, digits in LISTING_FIGURES:
        value = row.jump[field] if row.jump else None
        yield name, f"<td class=n>{'' if value is None else figure_text(value, digits=digits)}"
    yield "certainty", f"<td>{row.certainty}"
    yield "change", f"<td>{line.change}"
    yield "said", f"<td class=said>{escape(line.word)}"


def _breakable(label: str) -> str:
    """Return a name that may go on to the next line after each underscore."""
    return safe(label).replace("_", "_<wbr>")


def _verdict(row: DayRow) -> str:
    word = RANK_WORDS.get(row.rank)
    if row.rank == RANK_UNREADABLE:
        return f"<b class=tag>unreadable</b> {safe(_brief(row.shot.get('reason', '')))}"
    if word is not None:
        return word
    first = row.findings[0]
    more = f" <small>+{len(row.findings) - 1}</small>" if len(row.findings) > 1 else ""
    return f"<b class=tag>{first['severity']}</b> {safe(first['code'])}{more}"


def _brief(reason: str, most: int = 48) -> str:
    return reason if len(reason) <= most else reason[: most - 1] + "…"
