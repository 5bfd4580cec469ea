"""From a goal to whole frames, before a key is set."""
