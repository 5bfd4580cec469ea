"""The center of mass of a body: segments, what they weigh, and which bone's name tells which."""
