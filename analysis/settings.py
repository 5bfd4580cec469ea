"""Settings: what an audit is told besides the track."""

from dataclasses import dataclass

from .limits import Limits
from .world import World


@dataclass(frozen=True, slots=True)
class Settings:
    """The world of the shot and the house's limits."""

    world: World = World()
    limits: Limits = Limits()
