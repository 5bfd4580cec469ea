"""What may be a jump: every rise and fall of a track that stands out, with all that its witnesses may look at."""
