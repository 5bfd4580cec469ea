"""The day as JUnit XML, as build servers and farms read it: a suite a shot, a case a jump, a failure what is found.

There is no standard; this keeps to what the common readers share: testsuites, testsuite, testcase, failure, error,
skipped and system-out, with counts on each suite (Jenkins' junit-10.xsd).
"""

from collections.abc import Callable
from itertools import groupby
from typing import Any
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from ..dailies.day import Day
from ..dailies.rows import RANK_DOUBTFUL, RANK_NO_JUMP, RANK_UNREADABLE, DayRow
from ..finding import SEVERITIES
from .labels import frame_text

DEFAULT = "check"


def as_junit(day: Day, *, fail_on: str | None = None) -> str:
    """Write a day as XML, a suite a shot in order of names; findings from fail_on (check) on fail, but those meant."""
    least = SEVERITIES.index(fail_on or DEFAULT)
    whole = Element("testsuites", name="leapwright")
    for label, group in groupby(sorted(day.rows, key=_in_order), key=lambda row: row.label):
        suite = SubElement(whole, "testsuite", name=_xml(label))
        for row in group:
            _case(suite, row, least, day.is_meant)
        _count(suite)
    for name in ("tests", "failures", "errors", "skipped"):
        whole.set(name, str(sum(int(suite.get(name, "0")) for suite in whole)))
    ElementTree.indent(whole)
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(whole, encoding="unicode") + "\n"


def _in_order(row: DayRow) -> tuple[str, str, int]:
    return row.label, row.track_name, row.number


def _case(suite: Element, row: DayRow, least: int, meant: Callable[[DayRow, str], bool]) -> None:
    parts = (row.track_name or "shot", f"jump {row.number}" if row.number else "")
    name = ", ".join(filter(None, parts))
    seconds = f"{row.shot.get('seconds', 0.0):.3f}"
    case = SubElement(suite, "testcase", classname=_xml(row.label), name=_xml(name), time=seconds)
    if row.rank == RANK_UNREADABLE:
        SubElement(case, "error", type="unreadable", message=_xml(row.shot.get("reason", "")))
    elif row.rank == RANK_NO_JUMP:
        SubElement(case, "skipped", message="no jump")
    elif row.rank == RANK_DOUBTFUL:
        SubElement(case, "skipped", message="it may be no jump")
    else:
        _findings(case, row, least, meant)


def _findings(case: Element, row: DayRow, least: int, meant: Callable[[DayRow, str], bool]) -> None:
    grave = [one for one in row.findings
             if SEVERITIES.index(one["severity"]) >= least and not meant(row, one["code"])]  # fmt: skip
    rest = [one for one in row.findings if one not in grave]
    if grave:
        failure = SubElement(case, "failure", type=_xml(grave[0]["code"]), message=_xml(grave[0]["message"]))
        failure.text = _xml("\n".join(map(_told, grave)))
    if rest:
        SubElement(case, "system-out").text = _xml("\n".join(map(_told, rest)))


def _told(finding: Any) -> str:
    first, last = map(frame_text, finding["frames"])
    mend = f"\n  -> {finding['mend']}" if finding["mend"] else ""
    return f"{finding['severity']} {finding['code']}, frames {first} to {last}: {finding['message']}{mend}"


def _count(suite: Element) -> None:
    cases = list(suite)
    suite.set("tests", str(len(cases)))
    for name, tag in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
        suite.set(name, str(sum(case.find(tag) is not None for case in cases)))
    suite.set("time", f"{max((float(case.get('time', '0')) for case in cases), default=0.0):.3f}")


def _xml(text: object) -> str:
    """Return a text of characters that XML 1.0 allows (section 2.2, Char); a question mark for others."""
    def allowed(code: int) -> bool:
        return code in (9, 10) or 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD or code >= 0x10000

    return "".join(letter if allowed(ord(letter)) else "?" for letter in str(text))
