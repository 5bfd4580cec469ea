"""Stick figures: every pose at one scale on one ground line, small enough for hundreds."""

import re

from leapwright.analysis.report.stick_plot import stick_plot


def pose(event, frame, lift):
    """Return a body of one leg, a back and two arms, meters; lifted off the ground."""
    leg, arms = [0, lift, 0, 0.5 + lift, 0, 1.0 + lift], [-0.4, 1.2 + lift, 0, 1.0 + lift, 0.4, 1.2 + lift]
    return {"event": event, "frame": frame, "lines": [leg, arms]}


def test_a_pose_in_the_air_stands_as_much_higher_as_it_is_and_the_ground_under_the_lowest():
    text = stick_plot([pose("crouch", 12, 0.0), pose("apex", 20, 1.2)], title="hop")
    starts = [float(y) for y in re.findall(r"<path class=bones d=\"M\S+ (\S+?)l", text)]
    lengths = [int(shin) + int(thigh) for shin, thigh in re.findall(r"l0-(\d+) 0-(\d+)", text)]
    ground = float(re.search(r"<path class=grid d=\"M0 (\d+)H", text)[1])
    assert abs(starts[0] - ground) <= 1
    # The leg is 1 m: 1.2 m higher is 1.2 of its drawn length.
    assert abs((starts[0] - starts[1]) - 1.2 * lengths[0]) <= 2
    assert "crouch 12" in text and "apex 20" in text and 'aria-label="hop: poses at crouch, apex"' in text


def test_a_pose_of_twenty_bones_takes_half_a_kilobyte():
    bones = [[0.1 * n, 0.05 * n, 0.1 * n + 0.03, 0.05 * n + 0.21] for n in range(20)]
    made = [{"event": name, "frame": 10, "lines": bones} for name in ("crouch", "takeoff", "apex", "landing")]
    assert len(stick_plot(made, title="hop")) / 4 < 520
