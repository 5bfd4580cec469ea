"""What is drawn over the scene: arcs, events and distances in the viewport, events over the keys."""
