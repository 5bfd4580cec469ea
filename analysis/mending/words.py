"""What a finding says of the mends of its jump: one sentence, the ways joined by "or"; values beside it."""

from dataclasses import replace

from ..beat import left_over
from ..finding import Finding
from ..findings.basis.body import or_limbs
from ..findings.basis.pacing import ALLOWED
from ..jump import Jump
from ..mend import Mend, MendWay
from ..retiming.timing import PUSH_MENDED
from .heights import EASES
from .times import AIR_MENDED, LANDING_MENDED

TIMED_WAYS = frozenset({MendWay.REAL_TIME, MendWay.FLIGHT, MendWay.PUSH, MendWay.CROUCH, MendWay.HEIGHT, MendWay.EASE})
WAYS = {
    **dict.fromkeys(PUSH_MENDED | AIR_MENDED, TIMED_WAYS),
    **dict.fromkeys(LANDING_MENDED, frozenset({MendWay.ABSORB, MendWay.SINK, MendWay.ROLL})),
    EASES: frozenset({MendWay.EASE}),
}
"""Which mends each finding speaks of; those not listed have their own."""


def worded(finding: Finding, jump: Jump, mends: tuple[Mend, ...], codes: frozenset[str]) -> Finding:
    """Return the finding with the jump's mends for its mend; as it is where none is for it."""
    own = [mend for mend in mends if mend.way in WAYS.get(finding.code, frozenset())]
    if not own:
        return finding
    parts = [_part(mend, jump, number) for number, mend in enumerate(own)]
    texts = [text for text, _ in parts]
    values: dict[str, object] = {}
    for _, said in parts:
        values |= said
    if finding.code in AIR_MENDED and not codes & PUSH_MENDED and jump.push is not None:
        texts.insert(0, ALLOWED[:1].lower() + ALLOWED[1:])
    text = "; or ".join(texts)
    if finding.limbs is not None:
        text = or_limbs(text)
    return replace(finding, mend_template=_capital(text), values={**finding.values, **values})


def sentence(mend: Mend, jump: Jump) -> str:
    """Say one mend of a jump."""
    text, values = _part(mend, jump, 0)
    return _capital(text.format(**values))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _part(mend: Mend, jump: Jump, number: int) -> tuple[str, dict[str, object]]:
    """Return a mend in words, its values under names of its own."""
    name = f"mend{number}_"
    values: dict[str, object] = {
        f"{name}{key}": value for key in ("height", "depth", "sink") if (value := getattr(mend, key)) is not None
    }
    text = _TEXTS[mend.way].replace("{", "{" + name)
    frames = dict(mend.frames)
    if mend.way in (MendWay.REAL_TIME, MendWay.FLIGHT, MendWay.PUSH):
        moves = [f"{event} {then:g}" for event, _, then in mend.moves]
        if mend.way is MendWay.REAL_TIME:
            moves = [f"{event} {frame:g}" for event, frame in mend.frames]
        text += ", ".join(moves) + (f" (push {left_over(mend.left)})" if mend.left is not None else "")
    elif mend.way is MendWay.EASE:
        values[f"{name}start"] = round(frames["crouch"])
    elif mend.way in (MendWay.ABSORB, MendWay.SINK):
        values |= {f"{name}now": round(dict(mend.was)["absorbed"]), f"{name}then": round(frames["absorbed"])}
        values[f"{name}after"] = round(frames["absorbed"] - jump.landing.frame)
        values[f"{name}landing"] = round(jump.landing.frame)
    elif mend.way is MendWay.CROUCH and jump.push is not None:
        values[f"{name}now"] = jump.push.distance.value
    elif mend.way is MendWay.HEIGHT:
        if mend.depth is not None:
            text += " from a crouch {" + name + "depth:.2f} m under the takeoff"
        if mend.sink is not None:
            text += ", and sink {" + name + "sink:.2f} m"
    return text, values


_TEXTS = {
    MendWay.REAL_TIME: "keep nothing, for real time: ",
    MendWay.FLIGHT: "keep the flight: ",
    MendWay.PUSH: "keep the push: ",
    MendWay.CROUCH: "move no key: crouch {depth:.2f} m under the takeoff, not {now:.2f} m",
    MendWay.HEIGHT: "move no key: rise {height:.2f} m",
    MendWay.EASE: "hold the crouch until {start}, and ease less: speed up evenly into the takeoff",
    MendWay.ABSORB: "move the lowest pose from {now} to {then}, and let what is left settle after it",
    MendWay.SINK: "let the body sink on, about {sink:.2f} m within {after} frames of the landing at {landing}",
    MendWay.ROLL: "no body sinks on {sink:.2f} m: roll, or accept it",
}

