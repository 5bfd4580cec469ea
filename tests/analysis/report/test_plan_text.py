"""The text of a plan holds every pose and fits its width, however long, flat or lopsided the jump."""

import pytest
from leapwright.analysis import World
from leapwright.analysis.planning.goal import Goal
from leapwright.analysis.planning.plan import plan_jump
from leapwright.analysis.report.plan_text import CHART_COLUMNS, CHART_ROWS, chart, plan_text

GOALS = [
    Goal(0.3, height=1.2),
    Goal(0.3, airtime_frames=2),
    Goal(0.3, height=30.0, distance=12.0, fps=60),
    Goal(0.4, height=0.6, landing_height=-8.0, start_frame=9990),
    Goal(0.4, height=0.6, landing_height=0.5999),
    Goal(0.4, height=2.0, world=World(gravity=1.62, step=3), air_pace=0.5),
]


@pytest.mark.parametrize("goal", GOALS)
def test_every_line_fits_and_every_pose_is_there(goal):
    plan = plan_jump(goal)
    lines = plan_text(plan).splitlines()
    assert max(map(len, lines)) <= 100
    table = lines[next(n for n, line in enumerate(lines) if "spacing" in line) + 1 :]
    assert {str(pose.frame) for pose in plan.poses} <= set(" ".join(table).split())


@pytest.mark.parametrize("goal", GOALS)
def test_the_chart_is_of_its_size_and_shows_crouch_apex_and_absorbed(goal):
    drawn = chart(plan_jump(goal))
    assert len(drawn) == CHART_ROWS + 1
    assert max(map(len, drawn)) <= 11 + CHART_COLUMNS + 6
    assert "o" in drawn[0] + drawn[1] and "o" in "".join(drawn[CHART_ROWS // 2 : CHART_ROWS])
    assert f"{plan_jump(goal).exact.height:.2f} m" in drawn[0]
