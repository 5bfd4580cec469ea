"""The panel in the 3D viewport's sidebar, and what all its sub-panels show figures and sentences with."""
