"""One shot on the report's page: its jumps, each with picture, figures beside what is expected, findings."""

from collections.abc import Iterator
from html import escape

from ..audit import Audit
from ..finding import Finding
from ..jump import Event, Jump
from ..shot import Shot
from ..track import Track
from ..world import KINDS
from .chart import jump_chart
from .labels import EVENTS, error_text, figure_text, frame_text, printable, track_label


def shot_section(shot: Shot, *, label: str, anchor: str) -> str:
    """Write one shot as a section of HTML; anchor is its id."""
    parts = [f'<section id="{anchor}"><h2>{escape(label)}</h2>', f'<p class="path">{_safe(shot.path)}</p>']
    parts += [f'<p class="unread">Unreadable: {_safe(shot.reason)}</p>'] if shot.reason is not None else []
    parts += [f"<p>{_safe(note)}</p>" for note in shot.notes]
    reasons = shot.reasons or ("",) * len(shot.audits)
    for audit, track, why in zip(shot.audits, shot.tracks, reasons, strict=True):
        if len(shot.audits) > 1 or why:
            parts.append(f"<h3>{_safe(audit.name)}</h3>" + (f"<p>Followed: {_safe(why)}</p>" if why else ""))
        parts += _audit(audit, track, label=track_label(label, shot, audit.name))
    return "\n".join([*parts, "</section>"])


def _audit(audit: Audit, track: Track, *, label: str) -> Iterator[str]:
    if not audit.jumps:
        yield "<p>No jump in this track.</p>"
    yield from (f'<p class="remark">{_safe(note)}</p>' for note in audit.notes)
    for number, jump in enumerate(audit.jumps, 1):
        title = f"{label}, jump {number}"
        yield f"<article><h3>Jump {number}</h3><figure>{jump_chart(track, jump, title=title)}</figure>"
        yield _findings(jump)
        yield _events(jump)
        yield _figures(jump)
        yield "</article>"


def _findings(jump: Jump) -> str:
    if not jump.findings:
        return '<p class="none">Nothing found to mend.</p>'
    return "<ul>" + "".join(map(_finding, jump.findings)) + "</ul>"


def _finding(finding: Finding) -> str:
    mend = f"<br><b>Mend:</b> {_safe(finding.mend)}" if finding.mend else ""
    frames = f"frames {frame_text(finding.frames[0])} to {frame_text(finding.frames[1])}"
    return (
        f'<li class="{finding.severity}"><b class="tag">{finding.severity}</b> '
        f"<code>{escape(finding.code)}</code>, {frames}: {_safe(finding.message)}{mend}</li>"
    )


def _events(jump: Jump) -> str:
    found = [(word, event) for word in EVENTS if (event := getattr(jump, word)) is not None]
    head = "".join(f'<th scope="col">{word}</th>' for word, _ in found)
    frames = "".join(f"<td>{_frame(event)}</td>" for _, event in found)
    heights = "".join(f"<td>{figure_text(event.height)} m</td>" for _, event in found)
    return (
        f'<div class="wide"><table><thead><tr><th scope="col">event</th>{head}</tr></thead>'
        f'<tbody><tr><th scope="row">frame</th>{frames}</tr><tr><th scope="row">height</th>{heights}</tr>'
        "</tbody></table></div>"
    )


def _frame(event: Event) -> str:
    """A frame with its error; with the word where it was pinned by hand."""
    said = "pinned by hand" if event.pinned else f"± {error_text(event.frame_error)}"
    return f"{frame_text(event.frame)} {said}"


def _figures(jump: Jump) -> str:
    error = "" if jump.fitted_gravity_error is None else f" ± {jump.fitted_gravity_error:.2f}"
    airtime = jump.rise_frames_expected + jump.fall_frames_expected
    rows = (
        ("push", _frames(jump.push_frames), _frames(jump.push_frames_expected)),
        ("rise", _frames(jump.rise_frames), _frames(jump.rise_frames_expected)),
        ("fall", _frames(jump.fall_frames), _frames(jump.fall_frames_expected)),
        ("airtime", _frames(jump.airtime_frames), _frames(airtime)),
        ("absorb", _frames(jump.absorb_frames), _frames(jump.absorb_frames_expected)),
        ("fitted gravity", figure_text(jump.fitted_gravity, f"{error} m/s²"), figure_text(jump.gravity, " m/s²")),
        ("air pace", figure_text(jump.air_pace), "1"),
        ("push pace", figure_text(jump.push_pace), figure_text(jump.air_pace)),
        ("agreement", figure_text(jump.agreement), "1"),
        ("jump height", figure_text(jump.jump_height, " m"), ""),
        ("drop height", figure_text(jump.drop_height, " m"), ""),
        ("push distance", figure_text(jump.push_distance, " m"), ""),
        ("push ratio", figure_text(jump.push_ratio), f"to {KINDS[jump.kind]:g}"),
        ("absorb distance", figure_text(jump.absorb_distance, " m"), ""),
        ("absorb ratio", figure_text(jump.absorb_ratio), ""),
        ("distance", figure_text(jump.distance, " m"), ""),
        ("speed over the ground", figure_text(jump.travel_speed, " m/s"), ""),
    )
    body = "".join(
        f'<tr><th scope="row">{name}</th><td>{measured}</td><td>{expected}</td></tr>'
        for name, measured, expected in rows
    )
    return (
        '<details><summary>Figures</summary><div class="wide"><table><thead><tr><th scope="col">measure</th>'
        f'<th scope="col">measured</th><th scope="col">expected</th></tr></thead>'
        f"<tbody>{body}</tbody></table></div></details>"
    )


def _frames(frames: float | None) -> str:
    return figure_text(frames, " f", 1)


def _safe(text: str | None) -> str:
    return escape(printable(text or ""))
