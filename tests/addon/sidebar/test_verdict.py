"""The verdict is the one thing to know first: the gravest finding; of equal ones, that of the flight before that of the
push."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.addon.sidebar import icons
from leapwright.addon.sidebar.verdict import BY_CODE, FINDING_WORDS, Verdict, icon_name, said, verdict_of
from leapwright.analysis.certainty import Certainty
from leapwright.analysis.finding import Finding
from leapwright.analysis.findings import FINDERS

from tests.addon.overlay.flown import jump


def off(code, severity="check", frames=(21.0, 36.0)):
    return Finding(code, severity, frames, "something is off")


def judged(*findings, **changes):
    one = replace(jump(), findings=findings, **changes)
    judgment = verdict_of(one)
    return judgment.verdict, said(one, judgment), icon_name(one, judgment)


def test_without_a_finding_that_counts_push_and_flight_agree():
    assert judged() == (Verdict.AGREES, "Push and flight agree", "sound")
    assert judged(off("arc-hang", "note"))[0] is Verdict.AGREES


def test_a_style_that_push_and_flight_share_is_named():
    assert judged(off("air-floaty", "note")) == (Verdict.AGREES, "Push and flight agree, both floaty", "sound")
    assert judged(off("air-snappy", "note"))[1] == "Push and flight agree, both snappy"


def pushed(frames, *, error=0.9):
    """Return that jump's push as if it took so many frames; its flight asks for 2 d / v: 0.6 m / 3 m/s, 4.8 frames."""
    push = jump().push
    excess = replace(push.excess, value=frames - 4.8, error=error)
    return replace(push, frames=replace(push.frames, value=frames), excess=excess)


def test_a_push_that_reads_off_within_its_error_is_not_said_to_agree():
    # Right is 0.85 × 4.8 = 4.1 to 4.8 frames, a frame less, or a quarter of 4.8 more: 3.1 to 6.
    assert judged(push=pushed(3.2))[0] is judged(push=pushed(5.9))[0] is Verdict.AGREES
    assert judged(push=pushed(2.5)) == (Verdict.SHORT, "The push may be too short", "note")
    assert judged(push=pushed(6.2)) == (Verdict.LONG, "The push may be too long", "note")
    floaty = judged(off("air-floaty", "note"), push=pushed(2.5))
    assert floaty == (Verdict.FLOATY, "Floaty; the push may not agree", "note")


def test_a_style_that_rests_on_a_push_known_less_well_than_a_frame_is_not_said_to_agree():
    assert judged(off("air-floaty", "note"), push=pushed(4.5))[0] is Verdict.AGREES
    loose = judged(off("air-floaty", "note"), push=pushed(4.5, error=1.1))
    assert loose == (Verdict.FLOATY, "Floaty; the push may not agree", "note")
    assert judged(push=pushed(4.5, error=1.1))[0] is Verdict.AGREES  # nothing speaks of a style, or against it


def test_a_flight_out_of_time_is_named_with_both_its_frames():
    # 14.68 frames in the air, as the law asks (see flown.py).
    assert judged(off("air-floaty", "fix")) == (Verdict.FLOATY, "Floaty: 15 frames in air, 15 asked", "fix")
    assert judged(off("air-snappy"))[1].startswith("Snappy: 15 frames")


def test_of_two_that_are_as_grave_the_air_comes_first_and_the_graver_before_both():
    assert judged(off("push-short"), off("air-floaty"))[0] is Verdict.FLOATY
    assert judged(off("push-long", "fix"), off("air-floaty"))[0] is Verdict.LONG


def test_anything_else_is_said_in_words():
    assert judged(off("landing-stiff", "fix"))[1:] == ("The landing is too stiff", "fix")


def test_every_finding_that_may_be_more_than_a_note_has_words():
    codes = {find.__module__.rpartition(".")[2].replace("_", "-") for find in FINDERS}
    assert codes - {"push-beyond", "cannot-tell"} == set(FINDING_WORDS) | set(BY_CODE)


def test_what_a_studio_adds_is_named_with_its_frames():
    assert judged(off("drop-deep", "fix", (51.0, 53.0)))[1] == "Drop deep, 51–53"


def test_a_doubtful_jump_is_asked_about_whatever_is_off():
    assert judged(off("air-floaty"), certainty=Certainty.DOUBTFUL)[0] is Verdict.DOUBTFUL
    assert judged(certainty=Certainty.DOUBTFUL)[2] == "doubtful"


def test_a_fall_off_a_ledge_has_no_push_to_agree_with():
    assert judged(push=None)[:2] == (Verdict.FALLS, "The fall is believable")


@pytest.mark.parametrize("name", icons.SHAPES)
def test_pictures_differ_in_shape_as_well_as_in_color(name):
    share = icons.pixels_of(name)[..., 3]
    assert 0.08 < share.mean() < 0.6 and share[0].max() == share[:, 0].max() == 0.0
    for other in icons.SHAPES.keys() - {name}:
        assert np.abs(share - icons.pixels_of(other)[..., 3]).mean() > 0.08
