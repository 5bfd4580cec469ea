"""One bad frame does not hide a jump, and is named where the heights show it."""

from functools import cache

import numpy as np
import pytest

from tests.bench.flaws import spoiled
from tests.bench.tally import Tally

from .flaws import FLAWS, clean, make

TRACKS, STRIDE = 4, 4


NAMED = [flaw for flaw in FLAWS if flaw != "lost"]


@cache
def seen(flaw: str) -> tuple[Tally, list[bool]]:
    return spoiled(flaw, TRACKS, stride=STRIDE)


@pytest.mark.parametrize("flaw", FLAWS)
def test_a_flaw_changes_what_it_says(flaw: str) -> None:
    motion = clean(0)
    at = int(np.searchsorted(motion.track.frames, motion.truth[0].apex - 2))
    spoilt = make(flaw, 0, at)
    assert spoilt.frame == motion.track.frames[at]
    before, after = motion.track, spoilt.motion.track
    longer = {"doubled": 1, "dropped": -1, "lost": -3}.get(flaw, 0)
    assert len(after.frames) == len(before.frames) + longer
    moved = spoilt.motion.truth[0].landing - motion.truth[0].landing
    assert moved == pytest.approx({"doubled": 1.0, "dropped": -1.0}.get(flaw, 0.0))


@pytest.mark.parametrize("flaw", FLAWS)
def test_a_jump_with_a_bad_frame_is_found(flaw: str) -> None:
    tally, _ = seen(flaw)
    assert tally.found >= tally.truths - max(1, 0.02 * tally.truths), tally.missed


@pytest.mark.parametrize("flaw", NAMED)
def test_the_bad_frame_is_named(flaw: str) -> None:
    _, named = seen(flaw)
    assert len(named) >= 10
    assert sum(named) >= len(named) - max(1, 0.05 * len(named))
