"""The page in a real browser: sort, filter, keys, cards, notes; no error, and no request leaves the page."""

import base64
import json
from dataclasses import replace
from urllib.parse import parse_qs

import pytest
from leapwright.analysis.report.page import Head, as_page
from leapwright.analysis.shot import Shot, Thumbnail

from tests.analysis.day import FLOATY, day, shot

from .chromium import PROGRAM, chromium

pytestmark = pytest.mark.skipif(PROGRAM is None, reason="no Chromium here: the page is not driven")

SHOWN = "[...document.querySelectorAll('#day tbody tr:not(.gone) th a')].map(a => a.textContent.trim())"
OPEN = (
    "[...document.querySelectorAll('.card')].filter(c => c.offsetHeight)"
    ".map(c => c.querySelector('h2').firstChild.data.trim())"
)
FAINT = """
(() => {
  const light = (color) => {
    const [r, g, b] = color.match(/[\\d.]+/g).map((value) => value / 255)
      .map((value) => (value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const under = (of) => {
    for (; of; of = of.parentElement) {
      const color = getComputedStyle(of).backgroundColor;
      if (color !== "rgba(0, 0, 0, 0)") return color;
    }
    return "rgb(255, 255, 255)";
  };
  const faint = [];
  for (const one of document.querySelectorAll("body *")) {
    if (!one.offsetHeight || ![...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim())) continue;
    const [a, b] = [light(getComputedStyle(one).color), light(under(one))].sort((x, y) => y - x);
    if ((a + 0.05) / (b + 0.05) < 4.5) faint.push([one.tagName, one.className, one.textContent.slice(0, 30)]);
  }
  return faint;
})()
"""
HEIGHTS = "[...document.querySelectorAll('#day tbody tr')].map(r => r.cells[3].textContent)"


def shots():
    """Return seven shots: two to fix, one to check, one that cannot be read, a doubtful note, two without findings."""
    fix = replace(FLOATY, severity="fix")
    return [
        shot("tq010_hop.json"),
        shot("tq020_crate_v02.json", found=(replace(fix, measured=36.0),), seed=2),
        shot("ba030_<script>alert(1)<script>.json", found=(fix, FLOATY), seed=3),
        shot("tq040_rope.json", found=(replace(FLOATY, code="travel-drift"),), seed=4),
        shot("ba050_moss.json", found=(replace(FLOATY, severity="note", code="air-snappy"),), seed=5),
        Shot("tq060_gone.blend", "there is no such file"),
        shot("tq070_hop.json", seed=6),
    ]


@pytest.fixture(scope="module")
def browser():
    with chromium() as tab:
        yield tab


@pytest.fixture
def tab(browser, tmp_path):
    path = tmp_path / "index.html"
    path.write_text(as_page(day(*shots()), Head("0.1.0", "27 November 2026", "Tern Quay")), encoding="utf-8")
    browser.open(path)
    yield browser
    assert browser.complaints == []
    asked = [address for address in browser.asked_for if not address.startswith(("data:", "blob:null", "blob:file"))]
    assert {address.partition("#")[0] for address in asked} <= {path.as_uri()}
    browser.run("localStorage.clear()")


def view(tab):
    return {name: values[0] for name, values in parse_qs(tab.run("location.hash.slice(1)")).items()}


def test_the_day_opens_with_the_gravest_first_and_its_card_beside_it(tab):
    assert tab.run(SHOWN) == [
        "tq020_crate v02", "ba030_<script>alert(1)<script>", "tq060_gone", "tq040_rope", "ba050_moss",
        "tq010_hop", "tq070_hop",
    ]  # fmt: skip
    assert tab.run(OPEN) == ["tq020_crate_v02"]


def test_a_heading_sorts_and_sorts_back(tab):
    tab.click("[data-sort=shot] button")
    names = tab.run(SHOWN)
    assert names == sorted(names) and view(tab)["sort"] == "shot"
    assert tab.run("document.querySelector('[data-sort=shot]').ariaSort") == "ascending"
    tab.click("[data-sort=shot] button")
    assert tab.run(SHOWN) == names[::-1]
    tab.click("[data-sort=height] button")
    heights = [float(text) for text in tab.run(HEIGHTS) if text]
    assert heights == sorted(heights) and len(heights) == 6


def test_filters_narrow_the_day_together_and_the_address_keeps_them(tab):
    def choose(name, value):
        tab.run(f"(() => {{ const s = document.getElementById('{name}'); s.value = '{value}';"
                "s.dispatchEvent(new Event('input')); })()")  # fmt: skip

    choose("sequence", "tq")
    assert tab.run(SHOWN) == ["tq020_crate v02", "tq060_gone", "tq040_rope", "tq010_hop", "tq070_hop"]
    choose("severity", "2")
    assert tab.run(SHOWN) == ["tq020_crate v02"]
    assert tab.run("document.getElementById('count').textContent") == "1 of 7 rows"
    address = tab.run("location.href")
    tab.click("#all")
    assert len(tab.run(SHOWN)) == 7
    tab.go("about:blank")
    tab.go(address)  # the figure as it was written into the page
    assert tab.run(SHOWN) == ["tq020_crate v02"] and tab.run(OPEN) == ["tq020_crate_v02"]
    tab.click("#all")
    choose("finding", "travel-drift")
    assert tab.run(SHOWN) == ["tq040_rope"]
    tab.click("#all")
    choose("severity", "unreadable")
    assert tab.run(SHOWN) == ["tq060_gone"]
    tab.click("#all")
    choose("text", "moss")
    assert tab.run(SHOWN) == ["ba050_moss"]


def test_keys_step_from_jump_to_jump_in_the_order_shown(tab):
    tab.key("j")
    tab.key("j")
    assert tab.run(OPEN) == ["tq060_gone"] and view(tab)["at"] == "tq060_gone"
    tab.key("k")
    assert tab.run(OPEN) == ["ba030_<script>alert(1)<script>"]
    for _ in range(20):
        tab.key("j")
    assert tab.run(OPEN) == ["tq070_hop"]
    tab.key("o")
    assert tab.run("document.activeElement.querySelector('h2').textContent").startswith("tq070_hop")
    tab.key("/")
    assert tab.run("document.activeElement.id") == "text"
    tab.key("j")  # a note that is typed in now
    assert tab.run("document.getElementById('text').value") == "j" and tab.run(OPEN) == []


def test_a_click_opens_the_card(tab):
    tab.click("#day tbody tr:nth-child(4) a")
    assert tab.run(OPEN) == ["tq040_rope"]
    pictures = tab.run("[...document.querySelectorAll('.card.on svg')].map(s => s.getAttribute('class'))")
    assert pictures == ["plot", "above"]


def test_a_word_on_a_jump_stays_over_a_visit_and_is_written_for_the_command(tab, tmp_path):
    tab.click(".card.on .say input[value=meant]")
    tab.key("n")
    for letter in "ok":
        tab.key(letter)
    (note,) = json.loads(tab.download("#savenotes", tmp_path / "notes.json"))["notes"]
    assert (note["word"], note["text"], note["shot"]) == ("meant", "ok", "tq020_crate_v02")
    assert note["findings"] == ["air-floaty"] and len(note["frames"]) == 2
    tab.go(tab.run("location.href.split('#')[0]"))
    assert tab.run("document.querySelector('.card.on .say input[type=text]').value") == "ok"
    assert tab.run("document.querySelector('#day tbody tr .said').textContent") == "meant"


def test_the_figures_are_saved_as_the_audits_json(tab, tmp_path):
    document = json.loads(tab.download("#savejson", tmp_path / "audit.json"))
    assert document["schema"] == "leapwright-audit/1" and len(document["shots"]) == 7


def test_all_text_stands_out_enough_in_both_schemes(tab, tmp_path):
    # WCAG 2.1, success criterion 1.4.3: 4.5 to 1 for text; luminance and ratio as its glossary defines them.
    for dark in (False, True):
        tab.picture(tmp_path / "page.png", 1400, dark=dark)
        assert tab.run(FAINT) == []


def test_every_row_that_passes_the_filters_is_printed(tab, tmp_path):
    tab.pdf(tmp_path / "page.pdf")
    tab.call("Emulation.setEmulatedMedia", media="print")
    assert len(tab.run(OPEN)) == 7
    tab.call("Emulation.setEmulatedMedia", media="")
    assert (tmp_path / "page.pdf").read_bytes().startswith(b"%PDF")


def test_a_column_with_nothing_in_it_is_left_out_until_there_is(tab):
    shown = "getComputedStyle(document.querySelector('[data-sort=said]')).display !== 'none'"
    assert not tab.run(shown)
    tab.click(".card.on .say input[value=approved]")
    assert tab.run(shown)


def test_a_thumbnail_is_seen(browser, tmp_path):
    browser.go("about:blank")
    drawn = browser.run("(() => { const c = document.createElement('canvas'); c.width = 240; c.height = 135;"
                        "return c.toDataURL('image/jpeg'); })()")  # fmt: skip
    jpeg = base64.b64decode(drawn.partition(",")[2])
    path = tmp_path / "index.html"
    seen = replace(shot(found=(FLOATY,)), thumbnails=((Thumbnail(33.0, jpeg),),))
    path.write_text(as_page(day(seen), Head("0.1.0")), encoding="utf-8")
    browser.open(path)
    picture = "document.querySelector('.card.on img')"
    assert browser.run(f"[{picture}.naturalWidth, {picture}.naturalHeight, {picture}.alt]") == [
        240, 135, "the shot at frame 33"
    ]  # fmt: skip
    assert browser.complaints == []
