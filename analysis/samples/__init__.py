"""What a track's samples are worth: which are poses of their own, where they turn, where they rest."""
