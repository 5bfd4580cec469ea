"""A plan shown in the sidebar and laid into the scene."""
