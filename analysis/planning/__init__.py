"""From a wish to whole frames, before a key is set."""
