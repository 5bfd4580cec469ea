"""Retime: where the events of a jump must go so that push and flight belong together. Frames, meters.

The law: push frames = rise frames ÷ push ratio, and under gravity g a flight takes sqrt(g_fit / g) of its
drawn time; all of it is worked in whole frames, on the step of the shot.
"""

from collections.abc import Iterator

from ..audit import Audit, audit_track
from ..errors import RetimeError
from ..jump import Jump
from ..settings import Settings
from ..track import Track
from .aim import Aim
from .forecast import Forecast, compare
from .placing import placed
from .spacing import respaced
from .timing import Frames, anchors, exact_lengths, lengths_of, near_lengths
from .warp import air_of, warp
from .worth import Harm, Worth, worth

MOST_TIMINGS = 16
"""Most whole-frame timings near the exact one that are tried."""


def no_better(harmed: Worth, aim: Aim) -> RetimeError:
    """Return the refusal where every timing that can be had is worse than what is drawn; harmed: the nearest one's."""
    said = {
        Harm.FINDING: f"new: {', '.join(code.replace('-', ' ') for code in harmed.new)}",
        Harm.PACE: "the flight further from the pace asked for",
        Harm.AGREEMENT: "the push further from what its flight asks for",
    }
    where = "on whole frames" if aim.whole else "as its keys lie"
    way = "let keys go between frames, or keep something else" if aim.whole else "keep something else"
    worse = "; ".join(said[harm] for harm in harmed.harms)
    return RetimeError(f"{where} this would leave the jump worse than it is ({worse}): {way}")


def forecasts(track: Track, number: int, *, aim: Aim, settings: Settings) -> Iterator[Forecast]:
    """Yield what an audit would say after each timing that mends a jump of a track, the best first.

    number: the jump's place in the track's audit, from 0. Of the few whole-frame timings near the exact one,
    those come first which leave nothing to find, the nearest first; then those that leave the least; last
    those that are worse than what is drawn. Take the first that can be had. Raises RetimeError when there is
    no such jump, nothing to fit, no room, or no such timing.
    """
    before = audit_track(track, settings)
    jump = jump_of(before, number)
    old = anchors(track, jump)
    exact = exact_lengths(jump, old, keep=aim.keep, pace=aim.pace)
    others: list[tuple[tuple[bool, int], Forecast]] = []
    refused, clean = None, False
    for lengths in _tried(jump, old, exact, aim) if aim.whole else [exact]:
        try:
            forecast = _forecast(track, before, number, old=old, lengths=lengths, aim=aim, settings=settings)
        except RetimeError as refusal:
            refused = refused or refusal
            continue
        found = worth(forecast, aim)
        if found.harms or found.left:
            others.append(((bool(found.harms), found.left), forecast))
            continue
        clean = True
        yield forecast
    if not others and not clean:
        raise refused or RetimeError("no timing in whole frames lies near what this asks for")
    yield from (forecast for _, forecast in sorted(others, key=lambda other: other[0]))


def jump_of(audit: Audit, number: int) -> Jump:
    """Return the jump of this place, from 0. Raises RetimeError, which names how many there are."""
    if not 0 <= number < len(audit.jumps):
        count = len(audit.jumps)
        have = "no jump" if not count else "1 jump" if count == 1 else f"{count} jumps"
        raise RetimeError(f"{audit.name} has {have}, none of number {number + 1}")
    return audit.jumps[number]


def _forecast(
    track: Track, before: Audit, number: int, *, old: Frames, lengths: Frames, aim: Aim, settings: Settings
) -> Forecast:
    """Tell what an audit would say of the track with these lengths. Raises RetimeError where they cannot be had."""
    jump = before.jumps[number]
    time_map, names = placed(track, before, number, old=old, lengths=lengths, aim=aim)
    after = audit_track(warp(track, time_map, air=air_of(jump, time_map, lay=aim.lay)), settings)
    return compare(
        before, after, number, time_map=time_map, names=names, pace=aim.pace_of(jump),
        respaced=respaced(time_map, track.key_frames),
    )  # fmt: skip


def _tried(jump: Jump, old: Frames, exact: Frames, aim: Aim) -> Iterator[Frames]:
    """Tell what the jump's own mend says, then lengths on the step of the shot, the nearest first, then those on
    ones.
    """
    mend = next((mend for mend in jump.mends if mend.keep == aim.keep and mend.was == tuple(old.items())), None)
    if mend is not None and aim.pace == 1.0:
        yield lengths_of(dict(mend.frames))
    for step in dict.fromkeys((jump.step, 1)):
        near = sorted(near_lengths(old, exact, step=step), key=lambda near: near[0])
        yield from (lengths for _, lengths in near[:MOST_TIMINGS])
