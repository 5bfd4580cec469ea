"""cannot-tell: what the track does not hold, and what would settle it."""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell what could not be judged: too few samples, no arc in the curve, a push too short to resolve."""
    told = [*_flight(jump, limits), *_push(jump, limits)]
    told += [(note[:1].upper() + note[1:], "") for note in jump.notes]
    if not told:
        return None
    gravity = jump.flight.gravity
    values: dict[str, object] = {
        "count": jump.flight.samples,
        "unsure": jump.push.excess.error if jump.push else None,
        "share": gravity.error / gravity.value if gravity else None,
        **{f"note{i}": sentence for i, (sentence, _) in enumerate(told)},
    }
    known = len(told) - len(jump.notes)
    sentences = [sentence if i < known else f"{{note{i}}}" for i, (sentence, _) in enumerate(told)]
    return Finding(
        code="cannot-tell",
        severity="note",
        frames=(jump.takeoff.frame, jump.landing.frame),
        template=". ".join(sentences),
        mend_template=". ".join(dict.fromkeys(settles for _, settles in told if settles)),
        values=values,
    )


def _flight(jump: Jump, limits: Limits) -> list[tuple[str, str]]:
    """Return sentences about the flight: what cannot be told, and what would settle it."""
    if jump.method == "keys":
        return []
    if jump.arc is not None and jump.arc.count >= limits.fewest_air_samples:
        return []
    if jump.flight.samples < limits.fewest_air_samples:
        text = (
            "{count} samples in the air are too few to fit an arc: gravity comes from height and airtime "
            "alone, ± {share:.0%}"
        )
    else:
        text = "The curve holds no free flight between takeoff and landing; its shape is not judged"
    return [(text, "A center-of-mass track, a foot, or marks by hand would settle it")]


def _push(jump: Jump, limits: Limits) -> list[tuple[str, str]]:
    """Return a sentence about a push that is known less well than a whole step, and than its own tolerance."""
    if jump.push is None or jump.method == "keys":
        return []
    band = max(limits.frames_band * jump.step, limits.push_check * jump.push.expected.value)
    if jump.push.excess.error <= band:
        return []
    text = "The push is known only to ± {unsure:.1f} frames against what the flight asks for"
    return [(text, "A foot, or a mark by hand at takeoff, would settle it")]
