"""The pushes of all recorded hops are right: nothing of them is told at check or above, by hips or center of mass.

Hips are no center of mass, least of all in a backflip and in a kick that turns; where the flight shows it, what the
push is off by is a note, and the way to the center of mass is said.
"""

from collections.abc import Iterator

import pytest
from leapwright.analysis import Jump, audit_track

from .performers import performed
from .test_hops import HOPS, RATES, STARTS, Hop


def jumps(hop: Hop, fps: float | None, *, center: bool) -> Iterator[Jump]:
    """Yield the jumps told on the hop's own flight, sampled from each start."""
    body = performed(hop.name)
    for share in STARTS if fps else (0.0,):
        start = share / (fps or body.fps)
        track = body.track(fps=fps, start=start, center=center)
        first, last = ((frame / body.fps - start) * track.fps for frame in (hop.leaves, hop.touches))
        yield from (jump for jump in audit_track(track).jumps if first < jump.apex.frame < last)


@pytest.mark.parametrize("center", [False, True])
@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("hop", HOPS, ids=lambda hop: hop.name)
def test_no_recorded_push_is_blamed(hop: Hop, fps: float | None, center: bool) -> None:
    found = list(jumps(hop, fps, center=center))
    assert found
    told = [finding for jump in found for finding in jump.findings if finding.code.startswith("push-")]
    assert not [(finding.code, finding.severity) for finding in told if finding.rank > 0]


def test_of_a_backflip_by_its_hips_the_way_to_the_center_of_mass_is_said() -> None:
    flip = next(hop for hop in HOPS if hop.name == "humanoid3d_backflip")
    notes = [finding for jump in jumps(flip, 24.0, center=False) for finding in jump.findings
             if finding.code == "push-short"]
    assert notes
    assert all("against the center of mass, so follow that" in finding.mend for finding in notes)
