"""The cases of a track, as the witnesses hear them."""

from leapwright.analysis import Limits, Track, World
from leapwright.analysis.cases.case import Case
from leapwright.analysis.cases.collect import cases_of
from leapwright.analysis.feet import feet_of
from leapwright.analysis.samples.poses import poses_of


def only_case(track: Track) -> Case:
    """Return the one rise and fall of a track; fails where there are others."""
    (case,) = cases_of(track, poses_of(track), feet_of(track), World(), Limits())
    return case
