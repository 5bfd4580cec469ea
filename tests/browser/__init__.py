"""Drives pages in headless Chromium over its debugging pipe; what needs it is skipped where there is none."""
