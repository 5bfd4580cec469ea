"""The feet of a rig and the ground they stand on."""
