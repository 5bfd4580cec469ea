"""How each kind of thing is drawn: color, width, and a shape of its own, so that no color has to be told from another.

Colors: Okabe and Ito, "Color Universal Design" (2008): people with the common kinds of color blindness tell them
apart.
"""

from dataclasses import dataclass
from enum import IntEnum

from .geometry import Kind

Color = tuple[float, float, float, float]
ORANGE, SKY_BLUE = (0.90, 0.62, 0.0, 1.0), (0.34, 0.71, 0.91, 1.0)
YELLOW, VERMILLION, PURPLE = (0.94, 0.89, 0.26, 1.0), (0.84, 0.37, 0.0, 1.0), (0.80, 0.47, 0.65, 1.0)
WHITE, GRAY = (0.95, 0.95, 0.95, 1.0), (0.62, 0.62, 0.62, 1.0)
EDGE_COLOR: Color = (0.04, 0.04, 0.04, 0.75)
"""Around everything, so that it is seen on light backgrounds as well as on dark ones."""


class DotShape(IntEnum):
    """Shapes of dots, as the shader numbers them."""

    DISC = 0
    RING = 1
    DIAMOND = 2
    CROSS = 3
    SQUARE = 4


@dataclass(frozen=True, slots=True)
class Look:
    """Color, width of lines and size of dots in pixels at scale 1, shape of dots; 0 for none."""

    color: Color
    width: float = 0.0
    size: float = 0.0
    shape: DotShape = DotShape.DISC


LOOKS = {
    Kind.BEFORE: Look(GRAY, 1.5, 5.0, DotShape.SQUARE),
    Kind.FINDING: Look((*VERMILLION[:3], 0.6), 9.0),
    Kind.FITTED: Look(SKY_BLUE, 2.0),
    Kind.REAL: Look(ORANGE, 1.0, 13.0, DotShape.RING),
    Kind.GHOST: Look(PURPLE, 2.0, 9.0, DotShape.CROSS),
    Kind.TRACK: Look(WHITE, 1.5, 5.5, DotShape.DISC),
    Kind.PUSH: Look(YELLOW, 2.5),
    Kind.HEIGHT: Look(SKY_BLUE, 2.5),
    Kind.EVENT: Look(WHITE, 0.0, 11.0, DotShape.DIAMOND),
}
"""In the order in which they are drawn, the last on top."""
