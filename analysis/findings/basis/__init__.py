"""What findings rest on: the bands that a figure may leave, and the words that several of them share."""
