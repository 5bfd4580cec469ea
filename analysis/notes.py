"""Note: something about a track, or a jump, that is no finding; what it is, its values, and its sentence."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Said(StrEnum):
    """What a note is about."""

    NO_JUMP = "no jump"
    NEAREST = "nearest"
    LOW = "low"
    CUT_OFF = "cut off"
    PUSH_CUT = "push cut off"
    OFF = "frame off"
    REPEATED = "frame repeats"
    MISSING = "frame missing"
    BY_FEET = "feet alone"
    HUGE = "lengths"
    SIDEWAYS = "axis"
    GRAVITY = "gravity"
    MARKS_ORDER = "marks out of order"
    MARKS_MISSING = "marks missing"
    MARKS_OUTSIDE = "marks outside"
    MARKS_LOW = "marks too low"


SENTENCES = {
    Said.NO_JUMP: "no jump found",
    Said.NEAREST: "nearest to a jump: frames {first:.10g} to {last:.10g}, {rise:.2f} m up; {against}; a foot, or marks "
    "at its takeoff and landing, would settle it",
    Said.LOW: "left out around frame {frame:.10g}: a hop lower than the smallest one of {hop:g} cm",
    Said.CUT_OFF: "left out around frame {frame:.10g}: a flight cut off by an end of the track",
    Said.PUSH_CUT: "the track begins in the middle of the push",
    Said.OFF: "frame {frame:.10g} is {centimeters:.1f} cm off its neighbors: drawn through",
    Said.REPEATED: "frame {frame:.10g} only repeats the one before: taken as dropped, and drawn through",
    Said.MISSING: "a frame seems to be missing before frame {frame:.10g}: times after it may be one frame early",
    Said.BY_FEET: "the path alone shows no flight: takeoff and landing are where the feet leave the ground and "
    "touch it",
    Said.HUGE: "it moves by {meters:.3g} m, up to {speed:.3g} m/s: if that is too much, its lengths are not in meters",
    Said.SIDEWAYS: "along {axis} it rises and falls as a jump does: another axis may be up",
    Said.GRAVITY: "all its flights ask for {ratio:.2g} times the gravity they are judged in: is the world, or the size "
    "of the scene, the one meant?",
    Said.MARKS_ORDER: "marks were left out: with {marks} pinned the events of the jump would not rise in time",
    Said.MARKS_MISSING: "no jump was found at the marks {marks}; to make one, pin {missing} too",
    Said.MARKS_OUTSIDE: "marks were left out: {marks} lies outside frames {first:g} to {last:g}",
    Said.MARKS_LOW: "marks were left out: the apex at {apex:g} is not above its takeoff and landing",
}


class Against(StrEnum):
    """What speaks most against a rise and fall that is not called a jump."""

    SLOW = "it takes {seconds:.1f} s, as long as a lift or a squat would"
    UNDER = "it hardly leaves the height it stands at"
    LEVEL = "it does not go down before or after"
    CLIMB = "it is fastest half way up, as a climb or a lift is"
    KEYED = "its contacts are keyed far from the height it stands at"
    BOB = "it rises and falls as smoothly as a bob"
    HELD = "its keys on either side hold one height"
    STRIDES = "it is one of many alike, as strides are"
    FEET = "a foot stays on the ground"
    UNCLEAR = "little speaks for it, and little against it"


@dataclass(frozen=True, slots=True)
class Note:
    """A note: what it is about, and the values of its sentence."""

    said: Said
    values: Mapping[str, object] = field(default_factory=dict)

    @property
    def text(self) -> str:
        """The sentence, filled in.

        >>> Note(Said.NO_JUMP).text
        'no jump found'
        """
        return SENTENCES[self.said].format(**self.values)
