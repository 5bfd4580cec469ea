"""Documents of a day with jumps placed by hand, for comparing days."""

from leapwright.analysis.dailies.rows import day_rows

CODES = {"fix": "air-floaty", "check": "push-short", "note": "air-snappy"}


def finding(severity, ratio=2.0, code=None):
    """Return a finding whose measured figure is ratio times what is expected."""
    return {"code": code or CODES[severity], "severity": severity, "frames": [0, 1], "message": "m", "mend": "",
            "measured": 12.0 * ratio, "expected": 12.0}  # fmt: skip


def jump(takeoff, landing, *severities, height=0.5, certainty="sure", ratio=2.0):
    return {"takeoff": {"frame": takeoff}, "landing": {"frame": landing}, "jump_height": height, "drop_height": height,
            "certainty": certainty, "findings": [finding(severity, ratio) for severity in severities]}  # fmt: skip


def shot(path, *jumps, track="Brindle/root"):
    return {"path": path, "status": "ok", "tracks": [{"name": track, "jumps": list(jumps)}]}


def unreadable(path):
    return {"path": path, "status": "unreadable", "reason": "gone", "tracks": []}


def rows(*shots):
    return day_rows({"shots": list(shots)})
