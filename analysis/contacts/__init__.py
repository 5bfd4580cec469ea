"""Where a flight meets the ground, sub-frame: its parabola, the drives that end on it, and the bottoms beyond them."""
