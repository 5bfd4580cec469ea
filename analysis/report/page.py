"""The day on one page of HTML, whole in itself: a table to sort and filter, a card a jump, nothing fetched.

It is drawn from the audit's document alone. Its one script is named by its digest in the page's own policy
(Content Security Policy Level 3, hash sources): nothing else can run there or be loaded, whatever a shot is called.
"""

import base64
import hashlib
import json
import os
import zlib
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from ..dailies.day import Day
from ..dailies.rows import RANK_UNREADABLE, DayRow
from ..finding import SEVERITIES
from .card import IMAGE, card, safe
from .listing import Line, listing

HERE = Path(__file__).resolve().parent
LEGEND = (
    ("track", "M2 6h30", "the track, a dot a frame"),
    ("arc", "M2 6h30", "the arc fitted to the flight"),
    ("real", "M2 6h30", "the arc in real time, where that is another"),
    ("past", "M2 6h30", "the earlier take"),
)
EARLY_SCRIPT = 'document.documentElement.className="js"'
"""Runs before the page is laid out: hundreds of cards need not be, since one is open at a time."""
FILTERS = (
    ("sequence", "sequence"), ("character", "character"), ("severity", "at least"), ("finding", "finding"),
    ("certainty", "certainty"), ("change", "since the earlier day"), ("word", "said"),
)  # fmt: skip
PICTURE_FIELDS = ("poses", "thumbnail")
SAY = (
    "<div class=say><fieldset><legend hidden>Your word on this jump</legend>"
    '<label><input type=radio value="" checked> no word</label>'
    "<label><input type=radio value=approved> approved</label>"
    "<label><input type=radio value=meant> meant</label></fieldset>"
    '<input type=text maxlength=400 aria-label="Your note on this jump" placeholder="a note"></div>'
)


@dataclass(frozen=True, slots=True)
class Head:
    """What stands at the head of the page.

    show       the show's name; empty without one
    made       when the audit ran, as it is to be read
    settings   names and values that hold for every shot
    folder     where the page will lie: paths are shown as seen from there
    """

    version: str
    made: str = ""
    show: str = ""
    settings: tuple[tuple[str, str], ...] = ()
    folder: Path | None = None


def as_page(day: Day, head: Head) -> str:
    """Write a day as one HTML page, its rows in their order."""
    document = day.document
    lines = [_line(day, row, place) for place, row in enumerate(day.rows, 1)]
    style, script = (HERE.joinpath(name).read_text(encoding="utf-8") for name in ("page.css", "page.js"))
    title = " · ".join(filter(None, (head.show, "Jumps of the day", head.made)))
    cards = "\n".join(
        card(line.row, place=line.place, kind=line.kind, where=_where(line.row, head.folder),
             pair=day.pairs.get(line.row.key)) for line in lines
    )
    policy = _policy(EARLY_SCRIPT, script, images=IMAGE in cards)
    data = _packed(document)
    name = hashlib.sha256(data.encode()).hexdigest()[:16]
    return f"""<!DOCTYPE html>
<html lang=en><head><meta charset=utf-8><meta name=generator content="Leapwright {safe(head.version)}">
<meta name=viewport content="width=device-width, initial-scale=1">
<meta http-equiv=Content-Security-Policy content="{policy}"><title>{safe(title)}</title>
<script>{EARLY_SCRIPT}</script><style>{style}</style></head>
<body data-day={name}><header><h1>{safe(head.show or "Jumps of the day")}</h1>{_head(document, head)}
<p class=sum>{safe(day.summary())}</p>{_gone(day)}{_bar(lines)}</header>
<svg width=0 height=0 aria-hidden=true style="position:absolute"><marker id=dot viewBox="-1 -1 2 2" markerWidth=5
markerHeight=5 markerUnits=userSpaceOnUse><circle r=1 /></marker></svg>
<main><section id=list aria-label="The jumps of the day">{listing(lines)}</section>
<section id=cards aria-label="The chosen jump">{cards}</section></main>
<footer><p class=legend>{_legend()}</p>
<p>Leapwright {safe(head.version)} judges drawings of motion. It is not for training, medical or safety
decisions about real jumpers.</p></footer>
<p id=spoken role=status style="position:absolute;left:-9999px"></p>
<template id=say>{SAY}</template>
<script type=application/json id=notes>{_notes(day)}</script>
<script type=application/octet-stream id=data>{data}</script>
<script>{script}</script></body></html>
"""


def _head(document: Mapping[str, Any], head: Head) -> str:
    shots = document["shots"]
    facts = [
        ("date", head.made),
        ("shots", str(len(shots))),
        ("fps", _each(shot["fps"] for shot in shots)),
        ("gravity", _each((shot["gravity"] for shot in shots), " m/s²")),
        *head.settings,
        ("Leapwright", head.version),
    ]
    return "<dl class=head>" + "".join(
        f"<div><dt>{safe(name)}<dd>{safe(value)}</div>" for name, value in facts if value
    ) + "</dl>"  # fmt: skip


def _each(values: Iterable[float | None], unit: str = "") -> str:
    """Return every value that occurs, most frequent first; five at most."""
    found = [f"{value:.4g}" for value, _ in Counter(value for value in values if value is not None).most_common()]
    return ", ".join(found[:5]) + "…" * (len(found) > 5) + unit if found else ""


def _line(day: Day, row: DayRow, place: int) -> Line:
    pair, note = day.pairs.get(row.key), day.notes.get(row.key)
    return Line(row, place, day.rank(row), str(pair.change) if pair else "", note.word if note else "")


def _gone(day: Day) -> str:
    """Tell what the earlier day had and this one has not."""
    return f"<p>Gone since the earlier day: {safe(', '.join(row.key for row in day.gone))}</p>" if day.gone else ""


def _notes(day: Day) -> str:
    """Return the notes of today's rows by key, and those found on none, which are kept; nothing in it closes a
    script.
    """
    on = {key: {"word": note.word, "text": note.text} for key, note in day.notes.items()}
    found = set(map(id, day.notes.values()))
    rest = [asdict(note) for note in day.said if id(note) not in found]
    return json.dumps({"on": on, "rest": rest}).replace("<", "\\u003c")


def _bar(lines: Sequence[Line]) -> str:
    choices: dict[str, list[Any]] = {
        "sequence": sorted({line.row.name.sequence for line in lines}),
        "character": sorted({line.row.character for line in lines}),
        "severity": [(str(rank), word) for rank, word in reversed(list(enumerate(SEVERITIES)))]
        + [("unreadable", "unreadable")] * any(line.row.rank == RANK_UNREADABLE for line in lines),
        "finding": sorted({finding["code"] for line in lines for finding in line.row.findings}),
        "certainty": sorted({line.row.certainty for line in lines}),
        "change": [("any", "anything"), *(sorted({line.change for line in lines}))] if _compared(lines) else [],
        "word": ["approved", "meant", ("none", "no word")],
    }
    selects = "".join(_select(name, words, [choice for choice in choices[name] if choice]) for name, words in FILTERS)
    return (
        f'<div class=bar role=search><label>find<input type=search id=text size=16></label>{selects}'
        "<button type=button id=all>Show all</button>"
        '<span id=count role=status></span><button type=button id=savenotes>Save notes</button>'
        "<button type=button id=copynotes>Copy notes</button>"
        "<button type=button id=savejson>Save figures (JSON)</button></div>"
        "<p class=keys><small>Keys: j and k step from jump to jump, o goes to the card, n to its note, / to find. "
        "The address keeps the view: copy it to send it.</small></p>"
    )


def _compared(lines: Sequence[Line]) -> bool:
    return any(line.change for line in lines)


def _select(name: str, words: str, choices: Sequence[str | tuple[str, str]]) -> str:
    """Return a choice among what occurs; none where there is nothing to choose."""
    if len(choices) < 2:
        return ""
    pairs = [choice if isinstance(choice, tuple) else (choice, choice) for choice in choices]
    options = "".join(f'<option value="{safe(value)}">{safe(shown)}' for value, shown in pairs)
    return f'<label>{words}<select id={name}><option value="">all{options}</select></label>'


def _legend() -> str:
    return "".join(
        f'<span><svg viewBox="0 0 34 12" aria-hidden=true><path class={kind} d="{drawn}"/></svg> {words}</span>'
        for kind, drawn, words in LEGEND
    )


def _policy(*scripts: str, images: bool) -> str:
    digests = [base64.b64encode(hashlib.sha256(script.encode()).digest()).decode() for script in scripts]
    ours = " ".join(f"'sha256-{digest}'" for digest in digests)
    allowed = "style-src 'unsafe-inline'" + "; img-src data:" * images
    return f"default-src 'none'; {allowed}; script-src {ours}; base-uri 'none'; form-action 'none'"


def _packed(document: Mapping[str, Any]) -> str:
    """Return the document to six digits, deflated (RFC 1950), in base 64; PICTURE_FIELDS stay in the pictures."""
    return base64.b64encode(zlib.compress(json.dumps(_lean(document)).encode(), 9)).decode()


def _lean(values: Mapping[str, Any]) -> dict[str, Any]:
    lean: dict[str, Any] = {}
    for name, value in values.items():
        if isinstance(value, float):
            value = float(f"{value:.6g}") if abs(value) < 1e5 else value
        elif isinstance(value, dict) and name != "path":  # which is short as it is
            value = _lean(value)
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            value = [_lean(one) for one in value]
        if name not in PICTURE_FIELDS:
            lean[name] = value
    return lean


def _where(row: DayRow, folder: Path | None) -> str:
    """Return the shot's path as seen from the page; whole where there is no such way."""
    try:
        path = str(row.shot["path"])
        return os.path.relpath(os.path.realpath(path), folder) if folder is not None else path
    except ValueError:  # another drive, or no path at all
        return str(row.shot["path"])
