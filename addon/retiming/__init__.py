"""A retiming told before it is done, then done: in the scene, or by the command into another file."""
