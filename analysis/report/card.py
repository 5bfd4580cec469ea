"""The card of one row of the day: what is off and its mend first, then pictures, figures and notes, as HTML."""

import re
from collections.abc import Iterator, Mapping
from html import escape
from typing import Any

from ..dailies.compare import Pair
from ..dailies.rows import DayRow
from ..track import EVENTS
from .above_plot import above_plot, speaks_of_travel
from .figures import known_figures
from .height_plot import can_be_drawn, height_plot
from .labels import error_text, figure_text, frame_text, printable
from .stick_plot import stick_plot

IMAGE = '<img class=thumbnail src="data:image/jpeg;base64,'
BASE_64 = re.compile(r"[A-Za-z0-9+/]+={0,2}")


def safe(text: object) -> str:
    """Return a text that came from a file, made harmless in HTML, in attributes too."""
    return escape(printable(str(text)))


def card(row: DayRow, *, place: int, kind: str, where: str, pair: Pair | None = None) -> str:
    """Write a row's card.

    place numbers it on the page, kind is its class, where its file as seen from the page, pair what it was on an
    earlier day.
    """
    parts = [
        f'<article id=c{place} class="card {kind}">',
        f"<h2>{safe(row.label)}{_which(row)}</h2>",
        f"<p class=where>{safe(where)}{_frames(row)}</p>",
    ]
    if row.shot["status"] != "ok":
        parts.append(f"<p class=unread><b class=tag>unreadable</b> {safe(row.shot.get('reason', ''))}</p>")
    elif row.jump is None:
        parts.append("<p class=none>No jump in this track.</p>" if row.track else "<p class=none>No track.</p>")
    else:
        parts += _jump(row, row.jump, pair)
    parts += _notes(row)
    return "".join(filter(None, [*parts, "</article>"]))


def _which(row: DayRow) -> str:
    if row.track is None:
        return ""
    jump = f" · jump {row.number}" if row.number else ""
    return f" <small>{safe(row.track_name)}{jump}</small>"


def _frames(row: DayRow) -> str:
    if row.jump is None:
        return ""
    first, last = (frame_text(row.jump[name]["frame"]) for name in ("takeoff", "landing"))
    return f" · in the air from frame {first} to {last}"


def _jump(row: DayRow, jump: Mapping[str, Any], pair: Pair | None) -> Iterator[str]:
    if row.certainty == "doubtful":
        sure = jump.get("certainty_value")
        yield f"<p class=doubt>It may be no jump (certainty {figure_text(sure)}): nothing here asks to be mended.</p>"
    yield _findings(row)
    yield _change(pair)
    yield "<div class=plots>"
    if can_be_drawn(jump):
        before = pair.earlier.jump if pair and pair.earlier else None
        earlier = before if before is not None and can_be_drawn(before) else None
        yield f"<figure>{height_plot(jump, title='height over frames', earlier=earlier)}</figure>"
        if speaks_of_travel(jump):
            yield f"<figure>{above_plot(jump, title='the way')}<figcaption>from above</figcaption></figure>"
    drawn = f"<figure>{stick_plot(jump['poses'], title='the body')}</figure>" if can_be_drawn(jump, ("poses",)) else ""
    rendered = _thumbnail(jump.get("thumbnail"))
    yield f"<div class=body>{rendered}{drawn}</div>" if rendered else drawn
    yield "</div>"
    yield _events(jump)
    yield _figures(jump)


def _findings(row: DayRow) -> str:
    """Return the findings as HTML, the gravest first and apart; those of one jump may share their mend, which is said
    once.
    """
    if not row.findings:
        return "<p class=none>Nothing found to mend.</p>"
    told, said = [], set()
    for finding in row.findings:
        told.append(_finding(finding, mend="" if finding["mend"] in said else finding["mend"]))
        said.add(finding["mend"])
    first, *rest = zip(row.findings, told, strict=True)
    more = "<ul class=more>" + "".join(f"<li class={one['severity']}>{text}</li>" for one, text in rest) + "</ul>"
    return f'<div class="first {first[0]["severity"]}">{first[1]}</div>' + more * bool(rest)


def _change(pair: Pair | None) -> str:
    """Tell what the jump was on the earlier day."""
    if pair is None:
        return ""
    if pair.earlier is None or pair.earlier.jump is None:
        return f"<p class=change><b>{pair.change}</b> since the earlier day</p>"
    was, before = pair.earlier, pair.earlier.jump
    told = ", ".join(f"{finding['severity']} {finding['code']}" for finding in was.findings) or "nothing to mend"
    first, last = (frame_text(before[name]["frame"]) for name in ("takeoff", "landing"))
    return (
        f"<p class=change><b>{pair.change}</b> since {safe(was.label)}: there, in the air from frame {first} "
        f"to {last}, {safe(told)}</p>"
    )


def _finding(finding: Mapping[str, Any], *, mend: str) -> str:
    mended = f"<p class=mend>{safe(mend)}</p>" if mend else ""
    frames = f"frames {frame_text(finding['frames'][0])} to {frame_text(finding['frames'][1])}"
    head = f"<b class=tag>{finding['severity']}</b> <code>{safe(finding['code'])}</code> <small>{frames}</small>"
    return f"<p>{head}<br>{safe(finding['message'])}</p>{mended}"


def _thumbnail(thumbnail: Any) -> str:
    """Return the rendered picture; none from a document that is not as it should be."""
    if not isinstance(thumbnail, Mapping) or not BASE_64.fullmatch(str(thumbnail.get("jpeg", ""))):
        return ""
    frame = frame_text(float(thumbnail["frame"]))
    picture = f'{IMAGE}{thumbnail["jpeg"]}" alt="the shot at frame {frame}">'
    return f"<figure>{picture}<figcaption>frame {frame}</figcaption></figure>"


def _events(jump: Mapping[str, Any]) -> str:
    found = [(name, jump[name]) for name in EVENTS if jump[name]]
    top = "<tr><th scope=col>event" + "".join(f"<th scope=col>{name}" for name, _ in found)
    frames = "<tr><th scope=row>frame" + "".join(f"<td>{_frame(event)}" for _, event in found)
    return f"<div class=wide><table class=events><thead>{top}<tbody>{frames}</table></div>"


def _frame(event: Mapping[str, Any]) -> str:
    """Return a frame with its error; with the word where it was pinned by hand."""
    said = "pinned by hand" if event.get("pinned") else f"± {error_text(event['frame_error'])}"
    return f"{frame_text(event['frame'])} {said}"


def _figures(jump: Mapping[str, Any]) -> str:
    rows = "".join(
        f"<tr><th scope=row>{name}<td>{measured}<td>{expected}" for name, measured, expected in known_figures(jump)
    )
    head = "<tr><th scope=col>measure<th scope=col>measured<th scope=col>expected"
    return f"<table class=figures><thead>{head}<tbody>{rows}</table>"


def _notes(row: DayRow) -> Iterator[str]:
    """Tell what is said of the file, the track and the jump; why the track was taken."""
    said = [*row.shot.get("notes", ())]
    if row.track:
        said += [f"Followed: {row.track['reason']}"] if row.track.get("reason") else []
        said += row.track["notes"]
    said += row.jump.get("notes", ()) if row.jump else ()
    if said:
        yield "<ul class=remarks>" + "".join(f"<li>{safe(note)}</li>" for note in said) + "</ul>"
