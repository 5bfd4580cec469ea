"""A marker followed in a movie clip, as a track."""
