"""The answer beside the motion: what each jump of a track really is."""

from dataclasses import dataclass, field

from leapwright.analysis import Track

from .pieces import Path


@dataclass(frozen=True)
class Truth:
    """What one jump really is: events in frames, lengths in meters, gravity in m/s².

    crouch is the end of the hold (bottom, when there is none); None: not on the track. gravity None:
    the drawn curve holds no parabola.
    """

    crouch: float | None
    takeoff: float
    apex: float
    landing: float
    absorbed: float | None
    gravity: float | None
    push_distance: float | None
    jump_height: float
    drop: float
    open_by: float = 0.0
    """Frames either way by which a drawing leaves takeoff and landing open."""

    @property
    def push_ratio(self) -> float | None:
        """h / d."""
        return None if self.push_distance is None else self.jump_height / self.push_distance


@dataclass(frozen=True)
class Motion:
    """A track and its answer. partial: a jump on it is cut off, so what is reported must say so."""

    kind: str
    seed: int
    track: Track
    truth: tuple[Truth, ...]
    partial: bool = False
    path: Path | None = field(default=None, repr=False)
    offset: float = 0.0
    """Frame at which the path starts."""
