"""The verdict on one jump: the one thing to know about it, as a kind and numbers, then in words."""

from dataclasses import dataclass
from enum import StrEnum

from ...analysis.certainty import Certainty
from ...analysis.finding import SEVERITIES, Finding
from ...analysis.findings.basis.tolerance import push_is_loose, push_reads_off
from ...analysis.jump import Jump
from ...analysis.limits import Limits
from ...analysis.measures.push import Push
from .figures import to_digits
from .icons import DOUBTFUL_ICON, SOUND_ICON


class Verdict(StrEnum):
    """What may be the one thing to know about a jump."""

    DOUBTFUL = "doubtful"
    FLOATY = "air-floaty"
    SNAPPY = "air-snappy"
    LONG = "push-long"
    SHORT = "push-short"
    OFF = "off"
    """Something else is off."""
    AGREES = "agrees"
    FALLS = "falls"
    """A fall off a ledge: there is no push to agree with."""


BY_CODE = {verdict.value: verdict for verdict in (Verdict.FLOATY, Verdict.SNAPPY, Verdict.LONG, Verdict.SHORT)}

STYLES = {Verdict.FLOATY.value: "floaty", Verdict.SNAPPY.value: "snappy"}
"""What a jump is like throughout, whose push goes with its flight."""
MAYBE_WORDS = {
    Verdict.FLOATY: "Floaty; the push may not agree",
    Verdict.SNAPPY: "Snappy; the push may not agree",
    Verdict.LONG: "The push may be too long",
    Verdict.SHORT: "The push may be too short",
}
"""What may be off, where it is within the errors of what was read."""
FINDING_WORDS = {
    "no-push": "No crouch leads into the jump",
    "push-slows": "The push slows before takeoff",
    "push-eases": "The push dwells in the crouch",
    "push-speed": "The speed jumps at takeoff",
    "arc-hang": "It hangs at the top",
    "arc-skew": "The apex comes too early or late",
    "arc-broken": "The path leaves its arc",
    "arc-between": "The curve leaves the arc of its keys",
    "travel-drift": "The travel changes speed in the air",
    "travel-swerve": "The travel swerves in the air",
    "travel-stop": "The travel stops in the air",
    "landing-stiff": "The landing is too stiff",
    "landing-mushy": "The landing sinks for too long",
    "contact-early": "The feet leave or touch too early",
    "contact-late": "The feet leave or touch too late",
    "contact-slides": "A planted foot slides",
    "contact-sinks": "A foot sinks into the ground",
}
"""What else may be off, in a line; what is only ever a note is no verdict."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A verdict, and the finding it rests on, by its place in the jump; None where it rests on none.

    push_is_unsure: the push reads as if it did not go with the flight, or is known too badly to say so of a style
    """

    verdict: Verdict
    finding: int | None = None
    push_is_unsure: bool = False


def verdict_of(jump: Jump, limits: Limits = Limits()) -> Judged:  # noqa: B008 (frozen)
    """Judge a jump by its gravest finding; of those as grave, by what is off in the air, then in the push.

    Notes alone do not speak against it; where the push reads off, or a style rests on a push that is hardly known,
    neither is said to agree.
    """
    if jump.certainty is Certainty.DOUBTFUL:
        return Judged(Verdict.DOUBTFUL)
    worst = max((finding.rank for finding in jump.findings), default=0)
    if worst == 0:
        if jump.push is None:
            return Judged(Verdict.FALLS)
        return _unsure(jump, jump.push, limits) or Judged(Verdict.AGREES)
    grave = {finding.code: n for n, finding in reversed(list(enumerate(jump.findings))) if finding.rank == worst}
    for code, verdict in BY_CODE.items():
        if code in grave:
            return Judged(verdict, grave[code])
    return Judged(Verdict.OFF, min(grave.values()))


def _unsure(jump: Jump, push: Push, limits: Limits) -> Judged | None:
    """Return the style of a jump whose push may not go with it; without one, what the push reads; None where it
    agrees.
    """
    reads_off = push_reads_off(jump, limits)
    for place, finding in enumerate(jump.findings):
        if finding.code in STYLES and (reads_off or push_is_loose(jump, limits)):
            return Judged(BY_CODE[finding.code], place, push_is_unsure=True)
    if not reads_off:
        return None
    return Judged(Verdict.LONG if push.excess.value > 0.0 else Verdict.SHORT, push_is_unsure=True)


def said(jump: Jump, judged: Judged) -> str:
    """Say it in one line."""
    flight, push = jump.flight, jump.push
    if judged.push_is_unsure:
        return MAYBE_WORDS[judged.verdict]
    if judged.verdict is Verdict.DOUBTFUL:
        return "This may be no jump"
    if judged.verdict is Verdict.AGREES:
        styles = [STYLES[finding.code] for finding in jump.findings if finding.code in STYLES]
        return f"Push and flight agree{', both ' * bool(styles)}{''.join(styles)}"
    if judged.verdict is Verdict.FALLS:
        return "The fall is believable"
    if judged.verdict in (Verdict.FLOATY, Verdict.SNAPPY):
        word = "Floaty" if judged.verdict is Verdict.FLOATY else "Snappy"
        return f"{word}: {frames(flight.airtime.value)} in air, {to_digits(flight.expected, 0)} asked"
    if judged.verdict in (Verdict.LONG, Verdict.SHORT) and push is not None:
        word = "long" if judged.verdict is Verdict.LONG else "short"
        return f"Push too {word}: {frames(push.frames.value)}, {to_digits(push.expected.value, 0)} asked"
    if judged.finding is None:
        return "Something is off"
    finding = jump.findings[judged.finding]
    return FINDING_WORDS.get(finding.code, finding_named(finding))


def icon_name(jump: Jump, judged: Judged) -> str:
    """Name the picture for it: that of the severity, or of a sound or a doubtful jump."""
    if judged.verdict is Verdict.DOUBTFUL:
        return DOUBTFUL_ICON
    if judged.push_is_unsure:
        return SEVERITIES[0]
    return SOUND_ICON if judged.finding is None else jump.findings[judged.finding].severity


def finding_named(finding: Finding) -> str:
    """Name a finding with its frames."""
    return f"{finding_code(finding)}, {finding_frames(finding)}"


def finding_code(finding: Finding) -> str:
    """Name a finding alone."""
    return finding.code.replace("-", " ").capitalize()


def finding_frames(finding: Finding) -> str:
    """Write the frames of a finding."""
    first, last = (f"{frame:.0f}" for frame in finding.frames)
    return first if first == last else f"{first}–{last}"


def frames(value: float) -> str:
    """Write a number of frames, whole."""
    text = to_digits(value, 0)
    return f"{text} frame" if text == "1" else f"{text} frames"
