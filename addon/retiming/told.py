"""What a retiming of a file comes back with, for a process that has no Blender."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Told:
    """What was done to a shot.

    lines     what moves and what it is good for, as it is printed
    curves    how many curves moved; 0: nothing was written
    worst     rank of the gravest finding that the jump keeps; -1: none
    differs   where the file that was written is not as forecast, a sentence each
    """

    lines: tuple[str, ...]
    curves: int = 0
    worst: int = -1
    differs: tuple[str, ...] = ()
