"""Falls: a flight that no push began, off a ledge or let go, found on the way down."""

import numpy as np

from ..limits import Limits
from ..phases import Event, Phases
from .ballistic import longest
from .poses import Poses

FROM_REST = 0.2
"""Share of its last speed that a fall may begin with."""
SIDEWAYS = 0.3
"""Horizontal acceleration, as a share of the fall's, past which the ground still carries the point."""
