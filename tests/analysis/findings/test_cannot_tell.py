"""cannot-tell: said when, and only when, the track does not hold what a judgment needs."""

from dataclasses import replace

from leapwright.analysis import Settings, World
from leapwright.analysis.audit import judge
from leapwright.analysis.jump import measure
from leapwright.analysis.notes import Note, Said

from tests.analysis.closed_form import Leap, build, codes, found, keyed, measured
from tests.analysis.findings.one import only


def test_a_clear_jump_is_told() -> None:
    assert "cannot-tell" not in codes()


def test_fewer_than_five_air_samples_hold_no_arc() -> None:
    # 3 cm: 3.76 frames in the air at 24 fps.
    jump = measured(Leap(height=0.03, push=0.03, absorb=0.03, distance=0.1))
    assert jump.arc is None
    finding = only("cannot-tell", jump)
    assert finding.severity == "note"
    assert "too few to fit an arc" in finding.message
    assert "foot" in finding.mend


def test_an_eased_curve_leaves_nothing_untold() -> None:
    # What the curve does between right keys is told by another finding, arc-between.
    # Ten frames up, from a push 1 / 1.216 as high as the jump: 8.2 frames.
    jump = keyed((2, 0.3), (10, 1.0), (20, 1.8513), (30, 1.0), held=False, eased_curve=True)
    assert found(jump) == {"arc-between"}


def test_held_poses_claim_no_curve() -> None:
    # 10 frames up at 24 fps are 85.13 cm (frame table).
    assert "cannot-tell" not in found(keyed((4, 0.7), (10, 1.0), (20, 1.8513), (30, 1.0)))


def test_what_the_events_could_not_tell_is_passed_on() -> None:
    track, phases = build(Leap())
    jump = measure(track, replace(phases, notes=(Note(Said.PUSH_CUT),)), World())
    (finding,) = judge(jump, Settings()).findings
    assert finding.message == "The track begins in the middle of the push"


def test_a_push_too_short_to_resolve_says_how_well_it_is_known() -> None:
    finding = only("cannot-tell", Leap(height=0.5, push=0.15, error=0.8))
    assert finding.message.startswith("The push is known only to ±")
