"""Doubt: which frames ask for a closer look."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, audit_track
from leapwright.analysis.audit import Audit
from leapwright.analysis.certainty import Certainty
from leapwright.analysis.doubt import SECONDS_BESIDE_DOUBT, WIDE, is_unsure, unsure_frames

from tests.analysis.closed_form import Leap, build


def audited(**changes: object) -> tuple[Audit, Track]:
    """Return a jump at 24 frames a second whose audit has these changes."""
    track, _ = build(Leap())
    audit = audit_track(track)
    (jump,) = audit.jumps
    return replace(audit, jumps=(replace(jump, **changes),)), track


def wide(event: str, *, pinned: bool = False) -> dict[str, object]:
    (jump,) = audit_track(build(Leap())[0]).jumps
    return {event: replace(getattr(jump, event), frame_error=WIDE + 0.01, pinned=pinned)}


def test_a_clean_jump_asks_for_nothing() -> None:
    assert unsure_frames(*audited(certainty=Certainty.SURE), Limits()) == ()


@pytest.mark.parametrize(
    "changes", [{"certainty": Certainty.LIKELY}, {"certainty": Certainty.DOUBTFUL}, wide("takeoff"), wide("landing")]
)
def test_an_unsure_jump_asks_for_its_frames_and_a_margin(changes: dict[str, object]) -> None:
    audit, track = audited(**changes)
    (jump,) = audit.jumps
    assert is_unsure(jump)
    ((first, last),) = unsure_frames(audit, track, Limits())
    assert first == max(jump.crouch.frame - SECONDS_BESIDE_DOUBT * 24, track.frames[0])
    assert last == min(jump.absorbed.frame + SECONDS_BESIDE_DOUBT * 24, track.frames[-1])


def test_what_was_pinned_by_hand_is_not_asked_again() -> None:
    assert not is_unsure(audited(certainty=Certainty.SURE, **wide("takeoff", pinned=True))[0].jumps[0])


def test_jumps_that_are_near_each_other_share_one_stretch() -> None:
    audit, track = audited(certainty=Certainty.DOUBTFUL)
    (jump,) = audit.jumps
    twice = replace(audit, jumps=(jump, jump))
    assert unsure_frames(twice, track, Limits()) == unsure_frames(audit, track, Limits())


def test_where_nothing_is_found_though_it_rises_all_frames_are_asked() -> None:
    frames = np.arange(1, 49)
    bob = Track("bob", 24, frames, [[0, 0, 1 + 0.1 * np.sin(frame / 4)] for frame in frames])
    audit = replace(audit_track(bob), jumps=())
    assert unsure_frames(audit, bob, Limits()) == ((1.0, 48.0),)
    still = Track("still", 24, frames, [[0, 0, 1]] * 48)
    assert unsure_frames(audit_track(still), still, Limits()) == ()
