"""Remark: a sentence about a plan, and the values in it, so that each reader can write its lengths as it shows them."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Remark:
    """A sentence without a final period; lengths stand in its template as `{name:.2f} m` or `{name:.0f} cm`.

    >>> str(Remark("it rises {height:.2f} m", {"height": 1.0}))
    'it rises 1.00 m'
    """

    template: str
    values: Mapping[str, object] = field(default_factory=dict)

    def __str__(self) -> str:
        """Return the sentence, filled in, in meters and centimeters."""
        return self.template.format(**self.values)
