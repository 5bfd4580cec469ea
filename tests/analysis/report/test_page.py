"""The page of the day is valid HTML, needs no other file, can be read by a screen reader, and runs only its own script.
"""

import base64
import hashlib
import json
import re
import warnings
import zlib
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
from leapwright.analysis.certainty import Certainty
from leapwright.analysis.dailies.day import day_of
from leapwright.analysis.dailies.document import as_json
from leapwright.analysis.report.page import Head, as_page
from leapwright.analysis.shot import Pose, Shot, Thumbnail

from tests.analysis.day import FLOATY, alike, day, pinned, shot

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import html5lib

EVIL = '"><script>alert("tq")</script><img src=x onerror=alert(1)>'
HTML = "{http://www.w3.org/1999/xhtml}"


def page(*shots, **head):
    return as_page(day(*shots), Head("0.1.0", **head))


def parsed(text: str) -> ElementTree.Element:
    """Read as the HTML standard says (WHATWG, section 13.2), by html5lib; any parse error raises."""
    return html5lib.HTMLParser(strict=True, tree=html5lib.getTreeBuilder("etree")).parse(text)


def words(tree):
    return " ".join("".join(tree.itertext()).split())


def classed(tree, tag, name):
    return [one for one in tree.iter(HTML + tag) if name in one.get("class", "").split()]


def test_the_page_is_html_without_an_error_of_syntax():
    parsed(page(shot(found=(FLOATY,)), shot("tq020.json", seed=2), Shot("gone.blend", "there is no such file")))


def test_every_jump_has_a_card_with_picture_mend_and_figures():
    tree = parsed(page(shot(found=(FLOATY,)), shot("tq020.json", seed=2)))
    cards = classed(tree, "article", "card")
    assert len(cards) == 2
    svg = next(one for one in cards[0].iter() if one.tag.endswith("svg"))
    assert svg.get("role") == "img"
    assert svg.get("aria-label").startswith("height over frames, takeoff at frame ")
    first = classed(cards[0], "div", "first")
    assert "check air-floaty" in words(first[0]) and "Move the landing key from 30 to 24" in words(first[0])
    assert "fitted gravity" in words(cards[0]) and "Nothing found to mend." in words(cards[1])


def test_an_event_pinned_by_hand_says_so_in_place_of_an_error():
    assert "21 pinned by hand" in words(parsed(page(pinned(shot(), takeoff=21.0))))
    assert "pinned" not in words(parsed(page(shot())))


def test_every_row_leads_to_its_card():
    tree = parsed(page(shot(), Shot("gone.blend", "there is no such file")))
    places = {one.get("id") for one in tree.iter(HTML + "article")}
    links = [one.get("href") for one in tree.iter(HTML + "a")]
    assert {link.removeprefix("#") for link in links} == places and len(links) == 2
    gone = classed(tree, "tr", "unread")
    assert len(gone) == 1 and "there is no such file" in words(gone[0])


def test_what_a_file_is_called_or_says_stays_text():
    bad = replace(FLOATY, template=EVIL, mend_template=EVIL, code="x")
    of_shot = shot(f"{EVIL}.json", found=(bad,))
    audits = (replace(of_shot.audits[0], name=EVIL, notes=(EVIL,)),)
    evil = replace(of_shot, audits=audits, reasons=(EVIL,), notes=(EVIL,))
    tree = parsed(page(evil, Shot(f"{EVIL}.blend", EVIL), show=EVIL, settings=((EVIL, EVIL),)))
    tags = [one.tag for one in tree.iter() if isinstance(one.tag, str)]
    assert tags.count(HTML + "script") == 4  # notes, figures, and two scripts of the page itself
    assert not {HTML + tag for tag in ("img", "link", "iframe", "object", "base")} & set(tags)
    assert not [name for one in tree.iter() for name in one.attrib if name.startswith("on") or name == "src"]


def test_the_pages_policy_lets_its_own_script_run_and_nothing_else():
    tree = parsed(page(shot()))
    policy = next(one.get("content") for one in tree.iter(HTML + "meta") if one.get("http-equiv"))
    scripts = [one for one in tree.iter(HTML + "script") if one.get("type") is None]
    digests = [base64.b64encode(hashlib.sha256(one.text.encode()).digest()).decode() for one in scripts]
    assert policy.startswith("default-src 'none'; ") and len(scripts) == 2
    assert f"script-src 'sha256-{digests[0]}' 'sha256-{digests[1]}';" in policy


def test_the_figures_lie_in_the_page_as_the_audits_json():
    of_shot = shot(found=(FLOATY,))
    text = re.search("<script type=application/octet-stream id=data>(.*?)</script>", page(of_shot))[1]
    inside = json.loads(zlib.decompress(base64.b64decode(text)))
    assert alike(inside, json.loads(as_json(day(of_shot).document)))


def test_the_page_says_its_language_its_charset_and_what_it_is_not_for():
    tree = parsed(page(shot()))
    assert tree.get("lang") == "en"
    assert next(tree.iter(HTML + "meta")).get("charset") == "utf-8"
    assert "not for training, medical or safety" in words(tree)
    assert {one.get("scope") for one in tree.iter(HTML + "th")} == {"col", "row"}


def test_the_head_tells_date_show_shots_rate_gravity_settings_and_version():
    head = words(classed(parsed(page(shot(), shot("b.json"), made="27 November 2026", show="Tern Quay",
                                     settings=(("kind", "cat"),))), "dl", "head")[0])  # fmt: skip
    for fact in ("date27 November 2026", "shots2", "fps24", "gravity9.807 m/s²", "kindcat", "Leapwright0.1.0"):
        assert fact in head.replace(" ", "").replace("27November2026", "27 November 2026").replace("m/s²", " m/s²")


def test_a_doubtful_jump_is_told_as_doubtful_and_asks_for_nothing():
    of_shot = shot(found=(replace(FLOATY, severity="note"),))
    audit = of_shot.audits[0]
    jump = replace(audit.jumps[0], certainty=Certainty.DOUBTFUL, certainty_value=0.41)
    tree = parsed(page(replace(of_shot, audits=(replace(audit, jumps=(jump,)),))))
    assert "1 jump, 1 doubtful" in words(classed(tree, "p", "sum")[0])
    assert "It may be no jump (certainty 0.41)" in words(tree)
    assert words(classed(tree, "td", "look")[0]) == "doubtful"


def test_a_travel_finding_is_shown_from_above_and_others_are_not():
    drift = replace(FLOATY, code="travel-drift")
    assert "from above" in words(parsed(page(shot(found=(drift,)))))
    assert "from above" not in words(parsed(page(shot(found=(FLOATY,)))))


def test_every_finding_about_travel_is_known_to_the_view_from_above():
    from leapwright.analysis import findings
    from leapwright.analysis.report.above_plot import TRAVEL

    files = Path(findings.__file__).parent.glob("travel_*.py")
    assert {path.stem.replace("_", "-") for path in files} == TRAVEL


def test_paths_are_told_as_seen_from_the_page(tmp_path):
    text = page(shot(str(tmp_path / "shots" / "tq010.json")), folder=tmp_path / "report")
    assert "../shots/tq010.json" in text and str(tmp_path) not in re.sub("<script.*", "", text, flags=re.DOTALL)


def test_five_hundred_jumps_take_less_than_three_megabytes():
    # No two alike, each with three findings and a pose of 25 bones at each event.
    def one(seed):
        rng = np.random.default_rng(seed)
        joints = np.cumsum(rng.uniform(-0.25, 0.25, (5, 6, 2)), axis=1) + np.array([0.0, 0.9])
        chains = [tuple(chain.ravel().round(2).tolist()) for chain in joints]
        poses = tuple(Pose(event, 10.0, tuple(chains)) for event in ("crouch", "takeoff", "apex", "landing"))
        return replace(shot(f"tq{seed:04}_hop.json", found=(FLOATY,) * 3, seed=seed), poses=((poses,),))

    few, many = (len(page(*[one(seed) for seed in range(count)])) for count in (5, 45))
    assert few + 495 * (many - few) / 40 < 3e6


def test_a_thumbnail_stands_in_its_card_and_only_then_may_the_page_show_images():
    plain = page(shot())
    seen = page(replace(shot(), thumbnails=((Thumbnail(33.0, b"\xff\xd8"),),)))
    (image,) = parsed(seen).iter(HTML + "img")
    assert image.get("src") == "data:image/jpeg;base64,/9g=" and image.get("alt") == "the shot at frame 33"
    assert "img-src data:;" in seen and "img-src" not in plain


def test_a_thumbnail_that_is_none_stays_out_of_the_page():
    document = day(replace(shot(), thumbnails=((Thumbnail(33.0, b"\xff"),),))).document
    document["shots"][0]["tracks"][0]["jumps"][0]["thumbnail"]["jpeg"] = 'x" onerror="alert(1)'
    text = as_page(day_of(document), Head("0.1.0"))
    assert "onerror" not in re.sub("<script.*?</script>", "", text, flags=re.DOTALL) and "<img" not in text
