"""Where a flight meets the ground, to a part of a frame: its parabola, the push and the absorb that end on it, and the
bottoms beyond them."""
