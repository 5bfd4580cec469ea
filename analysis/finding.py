"""Finding: one thing that is off in a jump, with its frames, its size and its mend."""

from collections.abc import Mapping
from dataclasses import dataclass, field

SEVERITIES = ("note", "check", "fix")
"""From the mildest to the gravest."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is off.

    code        a short word with a dash, kept stable: "air-floaty"
    severity    one of SEVERITIES
    frames      (first, last) frame it concerns
    template    the sentence, with {name} fields; a panel translates this
    mend_template   what to do about it, in the animator's terms; may be empty
    values      what the fields are filled with
    limbs       meters that limbs may move the followed point, where that may be all there is to it; else None
    measured, expected   the quantity that is off, in the unit its sentence names; None where it has none
    """

    code: str
    severity: str
    frames: tuple[float, float]
    template: str
    mend_template: str = ""
    values: Mapping[str, object] = field(default_factory=dict)
    limbs: float | None = None
    measured: float | None = None
    expected: float | None = None

    @property
    def message(self) -> str:
        """The sentence, filled in."""
        return self.template.format(**self.values)

    @property
    def mend(self) -> str:
        """What to do about it, filled in; empty when there is nothing to do."""
        return self.mend_template.format(**self.values)

    @property
    def rank(self) -> int:
        """0 for a note, 1 for a check, 2 for a fix."""
        return SEVERITIES.index(self.severity)
