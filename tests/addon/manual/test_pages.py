"""The manual has a section for every finding, its links lead somewhere, and it uses the interface's own names."""

import ast
import re
import webbrowser
from html.parser import HTMLParser
from pathlib import Path

import bpy
import pytest
from leapwright.addon import registration
from leapwright.addon.manual import pages
from leapwright.addon.retiming.settings import SHORT
from leapwright.addon.sidebar.meanings import MEANINGS
from leapwright.analysis.findings import FINDERS

ADDON = Path(registration.__file__).parent
PICTURES = pages.PAGES_FOLDER / "pictures"
TEXTS = {name: (pages.PAGES_FOLDER / f"{name}.md").read_text(encoding="utf-8") for name in pages.page_names()}
CODES = sorted(find.__module__.rpartition(".")[2].replace("_", "-") for find in FINDERS)
LINK = re.compile(r"(!?)\[[^\]]+\]\(([^)]+)\)")
MOST = 60_000
"""Most bytes that a picture may have (ours)."""


def labels():
    """Return every name that the interface shows: those of classes, properties and choices, and the texts of panels."""
    found = {"Leapwright"}
    for module in registration.REGISTERED:
        for kind in getattr(module, "CLASSES", ()):
            found.add(getattr(kind, "bl_label", ""))
            for row in kind.bl_rna.properties:
                found.add(row.name)
                found |= {item.name for item in getattr(row, "enum_items", ())}
    for path in ADDON.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.keyword) and node.arg in {"text", "name", "heading"}:
                found |= {part.value for part in ast.walk(node.value) if isinstance(part, ast.Constant)}
    return {str(label).rstrip("…") for label in found} | set(MEANINGS) | set(SHORT.values())


def sections(text):
    """Return each second heading and what stands under it."""
    parts = re.split(r"^## (.+)$", text, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def test_each_finding_has_its_section_with_a_picture_a_meaning_and_a_mend():
    told = sections(TEXTS["findings"])
    assert sorted(told) == CODES
    for code, text in told.items():
        picture, meaning, mend = text.strip().split("\n\n")
        assert f"(pictures/{code.replace('-', '_')}.png)" in picture
        assert meaning and mend.startswith("Mend: "), code


def test_every_link_and_picture_is_there_and_every_picture_is_used():
    used = set()
    for name, text in TEXTS.items():
        for picture, target in LINK.findall(text):
            page, _, anchor = target.partition("#")
            if picture:
                used.add(page)
            assert (pages.PAGES_FOLDER / (page or f"{name}.md")).exists(), f"{name}: {target}"
            if anchor:
                headings = re.findall(r"^#+ (.+)$", TEXTS[page.removesuffix(".md") or name], flags=re.MULTILINE)
                assert anchor in map(pages.anchor_of, headings), f"{name}: {target}"
    there = {f"pictures/{path.name}" for path in PICTURES.glob("*.png")}
    assert used == there


def test_every_page_is_reached_from_the_first():
    linked = {target.removesuffix(".md") for _, target in LINK.findall(TEXTS[pages.FIRST_PAGE])}
    assert linked | {pages.FIRST_PAGE} >= set(TEXTS)


def test_what_is_bold_is_a_label_of_the_interface(scene):
    known = labels()
    wrong = [f"{name}: {bold}" for name, text in TEXTS.items() for bold in re.findall(r"\*\*([^*]+)\*\*", text)
             if bold.rstrip("…") not in known]  # fmt: skip
    assert not wrong


def test_no_picture_is_large():
    assert not [path.name for path in PICTURES.glob("*.png") if path.stat().st_size > MOST]


def test_the_three_figures_are_explained_before_they_are_used():
    first = TEXTS[pages.FIRST_PAGE]
    assert first.index("figures.md") < first.index("| task")
    order = [TEXTS["figures"].index(f"## {word}") for word in ("Push ratio", "Pace", "Agreement")]
    assert order == sorted(order)


class Tags(HTMLParser):
    """Notes whether tags close in order, where links point, and which ids there are."""

    def __init__(self):
        super().__init__()
        self.open, self.links, self.ids, self.pictures = [], [], set(), []

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        self.ids |= {attrs["id"]} if "id" in attrs else set()
        self.links += [attrs["href"]] if tag == "a" else []
        self.pictures += [attrs["src"]] if tag == "img" else []
        if tag not in {"img", "meta"}:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def test_pages_are_written_whole_with_links_that_hold(tmp_path):
    pages.write_pages(tmp_path)
    read = {}
    for path in tmp_path.glob("*.html"):
        read[path.name] = Tags()
        read[path.name].feed(path.read_text(encoding="utf-8"))
        assert not read[path.name].open
    assert len(read) == len(TEXTS)
    for tags in read.values():
        for link in tags.links:
            page, _, anchor = link.partition("#")
            assert page in read and (not anchor or anchor in read[page].ids), link
        assert all(link.startswith("file:") for link in tags.pictures)


def test_markdown_becomes_what_it_stands_for():
    listed, code = "1. one\n2. *two*", "```sh\na <b>\n\nc\n```"
    shown = pages.html_of(f"# A & B\n\ntwo\nlines of **bold** and `x < y`\n\n{listed}\n\n{code}\n")
    for part in ("<title>A &amp; B</title>", '<h1 id="a--b">A &amp; B</h1>', "<p>two lines of <b>bold</b> and ",
                 "<code>x &lt; y</code>", "<ol><li>one</li><li><i>two</i></li></ol>",
                 "<pre>a &lt;b&gt;\n\nc</pre>"):  # fmt: skip
        assert part in shown, part


@pytest.mark.parametrize(("page", "section"), [("index", ""), ("findings", "air-floaty")])
def test_the_button_opens_the_page_at_its_section(scene, monkeypatch, page, section):
    opened = []
    monkeypatch.setattr(webbrowser, "open", opened.append)
    assert bpy.ops.leapwright.open_manual(page=page, section=section) == {"FINISHED"}
    (url,) = opened
    assert url.startswith("file:") and url.endswith(f"{page}.html{'#' * bool(section)}{section}")


def test_a_page_that_is_not_there_is_refused(scene):
    assert bpy.ops.leapwright.open_manual(page="barges") == {"CANCELLED"}
