"""Mends that move keys: real time, the flight kept, the push kept, each as one plan in whole frames."""

import itertools
from collections.abc import Iterator
from dataclasses import replace

from ..errors import RetimeError
from ..findings import FINDERS
from ..findings.basis.tolerance import gives_way_too_little
from ..jump import Jump
from ..limits import Limits
from ..mend import KEPT_BY_WAY, Mend, MendWay
from ..retiming.timing import (
    MUSHY_LANDING,
    PUSH_MENDED,
    STIFF_LANDING,
    Frames,
    anchors,
    exact_lengths,
    lengths_of,
    near_lengths,
)
from ..settings import Settings
from ..track import Track
from .foreseen import retimed

AIR_MENDED = frozenset({"air-floaty", "air-snappy"})
LANDING_MENDED = frozenset({STIFF_LANDING, MUSHY_LANDING})
"""Findings of the air and of the landing that moving keys can mend."""
FEWEST_PUSH, FEWEST_AIR = 4.0, 8.0
"""Fewest frames of a push, and in the air, that a mend leaves: one sample or two between events tell no push, and a
gravity needs five interior ones (ours)."""
BAND_SHARE = 0.7
"""Share of each band that a mend keeps within where a timing allows it (ours)."""


def times(track: Track, jump: Jump, codes: frozenset[str], settings: Settings) -> Iterator[Mend]:
    """Yield the mends of a jump that a retiming does, real time first; none where nothing is to mend.

    codes: of its findings. Only what leaves no finding of its kind, as far as the jump's own figures foretell;
    a push is not kept where the flight would float or snap for it.
    """
    ways = list(_ways(codes, shallow=too_shallow(jump, settings.limits)))
    if not ways:
        return
    try:
        old = anchors(track, jump)
    except RetimeError:
        return
    found = {way: mend for way in ways if (mend := _mend(jump, old, way, settings)) is not None and mend.moves}
    # Two ways to the same frames are one: what it keeps says more than what it reaches.
    seen = {
        mend.frames: way
        for way in (MendWay.PUSH, MendWay.REAL_TIME, MendWay.FLIGHT)
        if (mend := found.get(way)) is not None
    }
    yield from (mend for way, mend in found.items() if seen.get(mend.frames, way) is way or way is MendWay.ABSORB)


def _ways(codes: frozenset[str], *, shallow: bool) -> Iterator[MendWay]:
    if codes & (PUSH_MENDED | AIR_MENDED):
        yield MendWay.REAL_TIME
    if codes & PUSH_MENDED:
        yield MendWay.FLIGHT
        yield MendWay.PUSH
    if codes & LANDING_MENDED and not shallow:
        yield MendWay.ABSORB


def _mend(jump: Jump, old: Frames, way: MendWay, settings: Settings) -> Mend | None:
    """Return the nearest whole-frame timing that leaves none of the findings that frames can mend."""
    try:
        exact = exact_lengths(jump, old, keep=KEPT_BY_WAY[way], pace=1.0)
    except RetimeError:
        return None
    if way is MendWay.ABSORB:
        exact = lengths_of(old) | {name: length for name, length in exact.items() if name == "absorb"}
    mended = (
        LANDING_MENDED
        if way is MendWay.ABSORB
        else PUSH_MENDED | LANDING_MENDED | (frozenset() if way is MendWay.FLIGHT else AIR_MENDED)
    ) - ({STIFF_LANDING} if too_shallow(jump, settings.limits) else frozenset())
    drawn = lengths_of(old)
    near = [
        lengths
        for step in dict.fromkeys((jump.step, 1))
        for _, lengths in sorted(near_lengths(old, exact, step=step), key=lambda near: near[0])
        if _is_read(lengths, drawn)
    ]
    foreseen: list[Jump] = []
    for limits in (_strict(settings.limits), settings.limits):
        for i, lengths in enumerate(near):
            if i == len(foreseen):
                foreseen.append(retimed(jump, old, lengths))
            if not any(finding.code in mended for find in FINDERS if (finding := find(foreseen[i], limits))):
                return _placed(way, foreseen[i], old, lengths)
    return None


def _is_read(lengths: Frames, drawn: Frames) -> bool:
    """Tell whether an audit afterward can tell push and flight: they do not get shorter than can be read."""
    air, before = (side.get("rise", 0.0) + side["fall"] for side in (lengths, drawn))
    push = "push" not in lengths or lengths["push"] >= min(FEWEST_PUSH, drawn["push"])
    return push and air >= min(FEWEST_AIR, before)


def _strict(limits: Limits) -> Limits:
    """Return limits that leave room for what an audit afterward reads otherwise."""
    return replace(
        limits,
        frames_band=BAND_SHARE * limits.frames_band,
        push_check=BAND_SHARE * limits.push_check,
        push_check_short=BAND_SHARE * limits.push_check_short,
        gravity_band=BAND_SHARE * limits.gravity_band,
        absorb_mushy=1.0 + BAND_SHARE * (limits.absorb_mushy - 1.0),
        absorb_stiff=1.0 - BAND_SHARE * (1.0 - limits.absorb_stiff),
    )


def too_shallow(jump: Jump, limits: Limits) -> bool:
    """Tell whether the landing is stiff by its depth, which no timing mends."""
    return jump.stops_dead or (jump.absorb is not None and gives_way_too_little(jump.absorb, limits))


def _placed(way: MendWay, then: Jump, old: Frames, lengths: Frames) -> Mend:
    """Return the plan with its takeoff where it is."""
    new = list(itertools.accumulate(lengths.values(), initial=0.0))
    shift = old["takeoff"] - new[list(old).index("takeoff")]
    return Mend(
        way,
        was=tuple(old.items()),
        frames=tuple((event, frame + shift) for event, frame in zip(old, new, strict=True)),
        left=then.push.excess.value if then.push else None,
        pace=then.flight.pace.value if then.flight.pace else None,
    )
