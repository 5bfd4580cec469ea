"""The manual's pages as a browser shows them: from the Markdown beside this file to HTML, links kept.

As much of Markdown as the pages use: headings, paragraphs, lists, tables, pictures, links, bold, italic, code.
"""

import html
import re
from pathlib import Path

PAGES_FOLDER = Path(__file__).resolve().parent
"""Where the pages lie."""
FIRST_PAGE = "index"
STYLE = """body { max-width: 46rem; margin: 2rem auto; padding: 0 1rem; font: 1rem/1.5 sans-serif; color: #222 }
img { max-width: 100%; border: 1px solid #ccc } table { border-collapse: collapse }
td, th { border: 1px solid #ccc; padding: .2rem .5rem; text-align: left; vertical-align: top }
code, pre { background: #eee } pre { padding: .5rem; overflow-x: auto } h2 { margin-top: 2.5rem }
@media (prefers-color-scheme: dark) { body { background: #1b1b1b; color: #ddd } a { color: #8ab4f8 }
code, pre { background: #333 } td, th, img { border-color: #555 } }"""
INLINE = (
    (r"!\[([^\]]*)\]\(([^)\s]+)\)", r'<img alt="\1" src="\2">'),
    (r"\[([^\]]+)\]\(([\w-]+)\.md(#[\w-]+)?\)", r'<a href="\2.html\3">\1</a>'),
    (r"\[([^\]]+)\]\(([^)\s]+)\)", r'<a href="\2">\1</a>'),
    (r"\*\*([^*]+)\*\*", r"<b>\1</b>"),
    (r"\*([^*]+)\*", r"<i>\1</i>"),
)
"""Patterns within a line, in the order in which they are looked for, outside of code."""
LIST = re.compile(r"(?:(-)|\d+\.) (.*)")
HEADING = re.compile(r"(#{1,3}) (.*)")


def page_names() -> list[str]:
    """Return the names of the pages, the first one first."""
    return sorted((path.stem for path in PAGES_FOLDER.glob("*.md")), key=lambda name: (name != FIRST_PAGE, name))


def anchor_of(heading: str) -> str:
    """Return what a link to a heading ends on, as on the sites that show Markdown.

    >>> anchor_of("Air pace, push pace")
    'air-pace-push-pace'
    """
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


def write_pages(folder: Path) -> Path:
    """Write every page as HTML into a folder, pictures linked where they lie; return the first one."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in page_names():
        text = (PAGES_FOLDER / f"{name}.md").read_text(encoding="utf-8")
        page = html_of(text).replace('src="pictures/', f'src="{(PAGES_FOLDER / "pictures").as_uri()}/')
        (folder / f"{name}.html").write_text(page, encoding="utf-8")
    return folder / f"{FIRST_PAGE}.html"


def html_of(text: str) -> str:
    """Turn a page into a document of its own."""
    title = text.partition("\n")[0].lstrip("# ")
    body = "\n".join(map(_block, _blocks(text)))
    head = f'<meta charset="utf-8"><title>{html.escape(title)}</title><style>{STYLE}</style>'
    return f'<!DOCTYPE html><html lang="en"><head>{head}</head><body>{body}</body></html>\n'


def _blocks(text: str) -> list[list[str]]:
    """Split a page at its empty lines, but for those within code."""
    blocks: list[list[str]] = [[]]
    in_code = False
    for line in text.splitlines():
        in_code ^= line.startswith("```")
        if line.strip() or in_code:
            blocks[-1].append(line)
        else:
            blocks.append([])
    return [block for block in blocks if block]


def _block(lines: list[str]) -> str:
    heading, item = HEADING.fullmatch(lines[0]), LIST.match(lines[0])
    if lines[0].startswith("```"):
        return f"<pre>{html.escape(chr(10).join(lines[1:-1]))}</pre>"
    if heading:
        level, words = len(heading[1]), heading[2]
        return f'<h{level} id="{anchor_of(words)}">{_inline(words)}</h{level}>'
    if lines[0].startswith("|"):
        return _table(lines)
    if item:
        kind = "ul" if item[1] else "ol"
        rows = "".join(f"<li>{_inline(row[2])}</li>" for line in lines if (row := LIST.match(line)))
        return f"<{kind}>{rows}</{kind}>"
    return f"<p>{_inline(' '.join(lines))}</p>"


def _table(lines: list[str]) -> str:
    rows = [[_inline(cell.strip()) for cell in line.strip("|").split("|")] for line in (lines[0], *lines[2:])]
    tags = ["th", *["td"] * (len(rows) - 1)]
    cells = ("".join(f"<{tag}>{cell}</{tag}>" for cell in row) for tag, row in zip(tags, rows, strict=True))
    return "<table>" + "".join(f"<tr>{row}</tr>" for row in cells) + "</table>"


def _inline(text: str) -> str:
    parts = html.escape(text, quote=False).split("`")
    for n, part in enumerate(parts):
        if n % 2:
            parts[n] = f"<code>{part}</code>"
            continue
        for pattern, shown in INLINE:
            part = re.sub(pattern, shown, part)
        parts[n] = part
    return "".join(parts)
