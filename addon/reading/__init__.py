"""Where a thing of the scene is, frame by frame, without moving the scene's own frame."""
