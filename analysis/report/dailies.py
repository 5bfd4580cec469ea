"""The day's shots on one page of HTML: whole in itself, no script, for screen, print and screen reader."""

from collections.abc import Sequence
from html import escape

from ..jump import Jump
from ..shot import Shot
from .labels import counted, shot_labels
from .page import shot_section
from .text import summary

STYLE = """
:root{color-scheme:light dark;--paper:#fbf8f1;--ink:#22302f;--faint:#6b7672;--line:#d9d3c4;--water:#0f6b78;
--air:#e3eeea;--arc:#b0612b;--fix:#a3262a;--check:#8a5a00;--note:#2f5d8a}
@media (prefers-color-scheme:dark){:root{--paper:#172021;--ink:#e8e4d8;--faint:#a3aca8;--line:#37423f;
--water:#6cc4cf;--air:#22322f;--arc:#e2a070;--fix:#f08b86;--check:#e5b960;--note:#93bde6}}
body{background:var(--paper);color:var(--ink);font:16px/1.5 Georgia,"Times New Roman",serif;max-width:52rem;
margin:2rem auto;padding:0 1rem}
h1,h2,h3{line-height:1.2;font-weight:600}
h2{border-top:3px solid var(--water);padding-top:.5rem;margin-top:2.5rem}
table{border-collapse:collapse;margin:.6rem 0;font-size:.9rem}
th,td{padding:.15rem .8rem .15rem 0;text-align:left;vertical-align:top;border-bottom:1px solid var(--line)}
td{font-variant-numeric:tabular-nums}.wide{overflow-x:auto}.wide td,td.count{white-space:nowrap}
a{color:var(--water)}ul{padding-left:0;list-style:none}
li{margin:.5rem 0;padding-left:.7rem;border-left:4px solid var(--note)}
li.fix{border-color:var(--fix)}li.check{border-color:var(--check)}.tag{color:var(--note)}
.fix .tag{color:var(--fix)}.check .tag{color:var(--check)}.path,.remark,.none,footer{color:var(--faint);
font-size:.9rem}
.unread{color:var(--fix)}figure{margin:.5rem 0}svg{width:100%;height:auto;font:11px sans-serif}
svg text{fill:var(--faint)}svg text.event{fill:var(--ink);paint-order:stroke;stroke:var(--paper);stroke-width:3px}
.grid{stroke:var(--line);fill:none}.air{fill:var(--air)}
.track{stroke:var(--water);stroke-width:2;fill:none;stroke-linejoin:round}
.dots{stroke:var(--water);stroke-width:5;stroke-linecap:round}.arc{stroke:var(--arc);stroke-width:1.5;
stroke-dasharray:6 5;fill:none}.real{stroke:var(--ink);stroke-width:1.5;stroke-dasharray:1.5 4;fill:none}
path.event{stroke:var(--faint);stroke-dasharray:1 3}
circle.event{fill:var(--ink)}
"""


def as_page(shots: Sequence[Shot], *, version: str) -> str:
    """Write the shots as one HTML document, a row a shot with its gravest finding at its head."""
    labels = shot_labels(shots)
    rows = "".join(_row(f"shot-{i}", label, shot) for i, (label, shot) in enumerate(zip(labels, shots, strict=True), 1))
    sections = "\n".join(
        shot_section(shot, label=label, anchor=f"shot-{i}")
        for i, (label, shot) in enumerate(zip(labels, shots, strict=True), 1)
    )
    return f"""<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Jumps of the day: {escape(summary(shots))}</title><style>{STYLE}</style></head>
<body><main><h1>Jumps of the day</h1><p>{escape(summary(shots))}</p>
<table><thead><tr><th scope="col">shot</th><th scope="col">jumps</th>
<th scope="col">gravest finding</th></tr></thead>
<tbody>{rows}</tbody></table>
<p class="remark">Solid line: the track, a dot a frame. Dashed: the arc fitted to its flight.
Dotted, where that is another: the arc of the same height under the shot's gravity. Shaded: in the air.</p>
{sections}</main>
<footer><p>Leapwright {escape(version)} judges drawings of motion. It is not for training, medical or safety
decisions about real jumpers.</p></footer></body></html>
"""


def _row(anchor: str, label: str, shot: Shot) -> str:
    jumps = [jump for audit in shot.audits for jump in audit.jumps]
    link = f'<a href="#{anchor}">{escape(label)}</a>'
    count = counted(len(jumps), "jump") if jumps else "no jump"
    return f'<tr><th scope="row">{link}</th><td class="count">{count}</td>{_verdict(shot, jumps)}</tr>'


def _verdict(shot: Shot, jumps: Sequence[Jump]) -> str:
    found = [finding for jump in jumps for finding in jump.findings]
    if shot.reason is not None or not found:
        return f"<td>{'none' if shot.reason is None else 'unreadable'}</td>"
    worst = max(found, key=lambda finding: finding.rank)
    more = f" and {len(found) - 1} more" if len(found) > 1 else ""
    return f'<td class="{worst.severity}"><b class="tag">{worst.severity}</b> {escape(worst.code)}{more}</td>'
