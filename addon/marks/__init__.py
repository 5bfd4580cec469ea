"""Marks by hand: pinned events, and frames said to hold no jump."""
