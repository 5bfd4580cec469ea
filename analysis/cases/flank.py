"""Flank: one side of a top, and at which height the body may stand there."""

from dataclasses import dataclass

from .flank_samples import TIPTOE, FlankSamples
from .ground import is_ground, popped_share


@dataclass(frozen=True, slots=True, eq=False)
class Flank:
    """One side of a top.

    samples           its samples, from the bottom to the top, both included
    stand             height in meters at which the body stands on this side, None where that is not seen
    elsewhere         heights at which it stands beyond the next jump, and on the other side
    is_open           whether the track ends at the bottom of the side, or the side is a single step, as at a cut
    is_held           whether the bottom is held, or the track begins there: the body may stand at it
    over_ground       whether its heights are over the world's ground
    """

    samples: FlankSamples
    stand: float | None
    elsewhere: tuple[float, ...]
    is_open: bool = False
    is_held: bool = False
    over_ground: bool = True

    @property
    def levels(self) -> tuple[float, ...]:
        """All levels at which it may stand on this side, the likeliest first."""
        return self.elsewhere if self.stand is None else (self.stand,)

    @property
    def assumed(self) -> float | None:
        """Height in meters at which the body most likely stands.

        Where that is not seen, its toes are taken to leave the ground where it is fastest. None where the track is cut
        off too early to tell.
        """
        if levels := self.levels:
            return levels[0]
        if self.is_cut:
            return None
        samples = self.samples
        return samples.bottom + (samples.height_at(samples.fastest) - samples.bottom) / (1.0 + TIPTOE)

    @property
    def is_grounded(self) -> bool:
        """Whether the bottom is the ground, and the point is seen to rest nowhere higher."""
        top = self.samples.top
        return self.over_ground and all([is_ground(level, top) for level in (self.samples.bottom, *self.levels)])

    @property
    def may_pop(self) -> bool:
        """Whether the body may leave the ground, or meet it, at the bottom: where it is held, or is the ground."""
        return (self.is_held or self.is_grounded) and not self.levels and not self.is_cut

    @property
    def popped_share(self) -> float:
        """How likely it is that it does, rather than that it crouches there and leaves where it is fastest."""
        if not self.may_pop:
            return 0.0
        samples = self.samples
        left = samples.height_at(samples.fastest) if self.over_ground else 0.0
        return popped_share(samples.bottom, left)

    @property
    def is_cut(self) -> bool:
        """Whether the track ends in the midst of the motion."""
        return self.is_open and self.samples.begins_in_midst

    def share_at(self, frame: float) -> float | None:
        """Tell how far the point is up from its likeliest stand to its top at a frame, as a share; None without one."""
        levels, samples = self.levels, self.samples
        return (samples.height_at(frame) - levels[0]) / (samples.top - levels[0]) if levels else None
