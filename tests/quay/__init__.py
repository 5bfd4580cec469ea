"""Tern Quay: shots built from a known motion, for the demo, the pictures and the tests."""
