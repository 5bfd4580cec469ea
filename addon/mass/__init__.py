"""The center of mass of a rig: its bones as segments, saved with the armature and shown."""
