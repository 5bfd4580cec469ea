"""Motion that knows its answer, made without the detector: jumps, and what only looks like one."""
