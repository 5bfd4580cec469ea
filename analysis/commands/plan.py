"""`leapwright plan`: the frames of a jump before a key is set, from a height or an airtime and a push."""

import argparse
import json
import sys
from typing import Any

from ..day import AuditEach
from ..errors import SettingsError
from ..options.values import duration, file_path, gravity, length, number
from ..planning.goal import LIFT, LIFT_RANGE, ZEROS, Goal
from ..planning.plan import plan_jump
from ..report.plan_data import plan_data
from ..report.plan_text import plan_text
from ..targets import STDOUT, check_folder, check_targets
from ..terminal import say
from ..world import GRAVITIES, JUMPERS, World
from ..writing import write_whole

SUMMARY = "work out the frames of a jump before a key is set"
EXAMPLE = "leapwright plan --height 54cm --push 41cm --distance 1.35m"
LOW_LIFT, USUAL_LIFT, HIGH_LIFT = (f"{length * 100.0:.0f}" for length in (LIFT_RANGE[0], LIFT, LIFT_RANGE[1]))
EPILOG = f"""\
Lengths take m, cm, mm, ft, in: 1.2m, 2ft, 1ft6in. Durations take f (frames) or s: 24f, 1s.

A height counts from the takeoff. With --from standing it counts from a standing pose instead: an adult's center
of mass is {LOW_LIFT} to {HIGH_LIFT} cm higher at takeoff ({USUAL_LIFT} cm unless --lift says otherwise).

For drawings of motion; not for training, medical or safety decisions about real jumpers.

exit code:
  0  done
  2  wrong call, or a jump that cannot be: nothing written

examples:
  leapwright plan --height 54cm --push 41cm --distance 1.35m
  leapwright plan --airtime 24f --push 30cm --distance 2m --step 2
  leapwright plan --height 60cm --from standing --push 35cm --land-lower 1m --gravity moon --json"""


def add(subparsers: Any) -> None:
    """Declare `plan` and its arguments."""
    parser = subparsers.add_parser(
        "plan",
        help=SUMMARY,
        description="Work out crouch, takeoff, apex, landing and absorb in whole frames, before a key is set.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.set_defaults(run=run)
    jump = parser.add_argument_group("the jump")
    size = jump.add_mutually_exclusive_group(required=True)
    size.add_argument("--height", type=length, metavar="LENGTH", help="jump height")
    size.add_argument("--airtime", type=duration, metavar="DURATION", help="takeoff to landing; the height follows")
    jump.add_argument("--push", type=length, required=True, metavar="LENGTH", help="rise from crouch to takeoff")
    jump.add_argument("--absorb", type=length, metavar="LENGTH", help="fall from landing to lowest (as the push)")
    jump.add_argument("--distance", type=length, default=0.0, metavar="LENGTH", help="across, takeoff to landing (0)")
    where = jump.add_mutually_exclusive_group()
    where.add_argument("--drop", type=length, metavar="LENGTH", help="apex to landing (as the height: level)")
    where.add_argument("--land-lower", type=length, metavar="LENGTH", help="landing under the takeoff")
    where.add_argument("--land-higher", type=length, metavar="LENGTH", help="landing above the takeoff")
    jump.add_argument("--from", choices=ZEROS, default=ZEROS[0], dest="zero", help="zero of the height (takeoff)")
    jump.add_argument(
        "--lift", type=length, default=LIFT, metavar="LENGTH", help=f"takeoff over standing ({USUAL_LIFT}cm)"
    )
    shot = parser.add_argument_group("the shot")
    shot.add_argument("--fps", type=number, default=24.0, metavar="N", help="frames per second (24)")
    shot.add_argument("--step", type=int, default=1, metavar="N", help="frames a pose: 2 for twos (1)")
    shot.add_argument("--pace", type=number, default=1.0, metavar="N", help="air pace: 2 snappy, 0.5 floaty (1)")
    shot.add_argument("--gravity", type=gravity, default="earth", metavar="G",
                      help=f"a world ({', '.join(GRAVITIES)}) or m/s² (earth)")  # fmt: skip
    shot.add_argument(
        "--kind", choices=JUMPERS, default="person", metavar="KIND", help=f"{', '.join(JUMPERS)} (person)"
    )
    shot.add_argument("--start", type=int, default=1, metavar="FRAME", help="frame of the crouch (1)")
    parser.add_argument("--json", type=file_path, nargs="?", const=STDOUT, metavar="FILE",
                        help="write the plan as JSON, to stdout without FILE")  # fmt: skip
    parser.add_argument("--force", action="store_true", help="write over a FILE that Leapwright did not write, too")


def run(arguments: argparse.Namespace, _audit_each: AuditEach) -> int:
    """Plan what the arguments ask for; raise PlanError for what cannot be."""
    to_file = arguments.json not in (None, STDOUT)
    if to_file:
        check_targets([arguments.json], force=arguments.force)
        check_folder(arguments.json)
    plan = plan_jump(_goal(arguments))
    if arguments.json is not None:  # first: a wrong place for it is a wrong call, and prints nothing
        written = json.dumps(plan_data(plan), indent=1, ensure_ascii=False, allow_nan=False) + "\n"
        if not to_file:
            say(written, sys.stdout)
            return 0
        try:
            write_whole(arguments.json, written)
        except OSError as trouble:
            reason = (trouble.strerror or str(trouble)).lower()
            raise SettingsError(f"{arguments.json} cannot be written: {reason}") from None
    say(plan_text(plan), sys.stdout)
    return 0


def _goal(arguments: argparse.Namespace) -> Goal:
    world = World(gravity=arguments.gravity, step=arguments.step, kind=arguments.kind)
    landing = arguments.land_higher or (-arguments.land_lower if arguments.land_lower else None)
    airtime = None
    if arguments.airtime is not None:
        count, unit = arguments.airtime
        airtime = count if unit == "f" else count * arguments.fps
    return Goal(
        arguments.push,
        height=arguments.height,
        airtime_frames=airtime,
        world=world,
        fps=arguments.fps,
        air_pace=arguments.pace,
        landing_height=landing,
        drop_height=arguments.drop,
        absorb_distance=arguments.absorb,
        distance=arguments.distance,
        zero=arguments.zero,
        lift=arguments.lift,
        start_frame=arguments.start,
    )
