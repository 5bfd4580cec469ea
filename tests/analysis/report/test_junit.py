"""JUnit XML is read by a general-purpose reader of it, junitparser, as a build server would."""

from junitparser import Error, Failure, JUnitXml, Skipped
from leapwright.analysis.dailies.day import day_of
from leapwright.analysis.dailies.notes import ReviewNote
from leapwright.analysis.report.junit import as_junit

from tests.analysis.dailies.rowing import jump, shot, unreadable

DAY = (
    shot("tq010.blend", jump(10, 26, "fix", "note"), jump(50, 66)),
    shot("tq020.blend", jump(10, 26, "check"), jump(50, 66, "note", certainty="doubtful")),
    shot("tq030.blend"),
    unreadable("<b>\x07&.blend"),
)


def read(notes=(), **options):
    return JUnitXml.fromstring(as_junit(day_of({"shots": DAY}, notes=notes), **options).encode())


def test_findings_are_failures_and_what_cannot_be_read_is_an_error():
    whole = read()
    assert (whole.tests, whole.failures, whole.errors, whole.skipped) == (6, 2, 1, 2)
    assert [suite.name for suite in whole] == ["<b>?&", "tq010", "tq020", "tq030"]
    unread, hops, doubt, _ = whole
    first, second = hops
    (failure,) = first.result
    assert isinstance(failure, Failure) and failure.type == "air-floaty"
    assert (first.classname, first.name) == ("tq010", "Brindle/root, jump 1") and second.result == []
    assert first.system_out.startswith("note air-snappy, frames 0 to 1: m")
    assert isinstance(next(iter(unread)).result[0], Error)
    assert isinstance(list(doubt)[1].result[0], Skipped)  # a doubtful jump


def test_what_fails_is_what_the_call_asks_for_but_what_is_meant():
    assert read(fail_on="fix").failures == 1 and read(fail_on="note").failures == 2
    meant = ReviewNote("tq010", "Brindle/root", (10, 26), "meant", findings=("air-floaty",))
    assert read([meant]).failures == 1
