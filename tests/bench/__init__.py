"""Benchmarks: how true and how fast. `python -m tests.bench [part …]`; a part is a module with `run`."""
