"""`leapwright retime`: move the keys of one jump of a shot, and save it as another file."""

import argparse
import os
import sys
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from ...analysis.day import AuditEach
from ...analysis.ending import held_back, stand
from ...analysis.errors import SettingsError, SourceError
from ...analysis.files import BLEND_SUFFIX
from ...analysis.finding import SEVERITIES
from ...analysis.options.values import gravity, jump, number, seconds, step
from ...analysis.report.labels import counted, printable
from ...analysis.retiming.aim import HELD_EVENTS, KEEP_TIMES, KEEPS, Aim
from ...analysis.retiming.warp import LAYS
from ...analysis.terminal import say, tell
from ...analysis.world import GRAVITIES, JUMPERS, World
from ...analysis.writing import beside
from ..inside import in_blender
from ..shots.worker import NO_BLENDER
from .told import Told

SUMMARY = "move the keys of a jump so that push and flight belong together"
EXAMPLE = "leapwright retime tq050_bucket_late.blend --jump 1 --keep flight --out tq050_bucket_v02.blend"
EPILOG = """\
keep:
  flight   keep the flight and fit the push to it
  push     keep the push and fit the flight to it
  nothing  bring both to real time, or to the air pace of --pace
  times    move no key: say which height and crouch the times would fit

exit code:
  0  done
  1  done, and the jump still has a finding at or above --fail-on
  2  wrong call, or keys that may not be moved: nothing written
  3  the shot could not be read

examples:
  leapwright retime tq050_bucket_late.blend --jump 1 --keep flight --out tq050_bucket_v02.blend
  leapwright retime tq040_rope_snappy.blend --jump 1 --keep nothing --pace 1.2 --out tq040_rope_v02.blend
  leapwright retime tq020_crate_floaty.blend --jump 1 --keep times"""


def add(subparsers: Any) -> None:
    """Declare `retime` and its arguments."""
    parser = subparsers.add_parser(
        "retime",
        help=SUMMARY,
        description="Move every key of a jumping character so that push and flight belong together.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.set_defaults(run=run)
    parser.add_argument("shot", metavar="SHOT", type=Path, help="a .blend file; it is never written over")
    parser.add_argument("--out", type=Path, metavar="NEW", help="the .blend file to write; it must not exist yet")
    what = parser.add_argument_group("what to retime")
    what.add_argument("--jump", type=jump, required=True, metavar="N", help="number of the jump in its track, from 1")
    what.add_argument("--track", metavar="NAME", help="the track: an object, or armature/bone (the one that jumps)")
    how = parser.add_argument_group("how")
    how.add_argument("--keep", choices=(*KEEPS, KEEP_TIMES), required=True, help="what stays as it is, see below")
    how.add_argument("--pace", type=number, default=1.0, metavar="N", help="nothing kept: 2 snappy, 0.5 floaty (1)")
    how.add_argument(
        "--hold", choices=HELD_EVENTS, default="takeoff", help="the event that stays on its frame (takeoff)"
    )
    how.add_argument("--move-following", action="store_true",
                     help="move what follows along; otherwise it stays and the settling makes room")  # fmt: skip
    how.add_argument("--between-frames", action="store_true", help="keys need not go to whole frames")
    how.add_argument("--lay", choices=LAYS, default="rounded",
                     help="keys in the air whose values change: those whole frames displace (rounded)")  # fmt: skip
    how.add_argument("--shape-keys", action="store_true", help="move the shape keys of the character's meshes too")
    how.add_argument("--markers", action="store_true", help="move markers too")
    judge = parser.add_argument_group("what to judge against")
    judge.add_argument("--gravity", type=gravity, metavar="G",
                       help=f"a world ({', '.join(GRAVITIES)}) or m/s² (the scene's)")  # fmt: skip
    judge.add_argument(
        "--kind", choices=JUMPERS, default="person", metavar="KIND", help=f"{', '.join(JUMPERS)} (person)"
    )
    judge.add_argument("--step", type=step, default=1, metavar="N", help="frames a pose: 2 for a shot on twos (1)")
    judge.add_argument("--fail-on", choices=SEVERITIES, metavar="SEVERITY",
                       help=f"exit 1 when the jump keeps a finding at or above: {', '.join(SEVERITIES)}")  # fmt: skip
    parser.add_argument("--timeout", type=seconds, default=120.0, metavar="SECONDS",
                        help="longest wait for Blender (120)")  # fmt: skip


def run(arguments: argparse.Namespace, _audit_each: AuditEach) -> int:
    """Retime what the arguments name; raise RetimeError or SettingsError for what cannot be."""
    aim = None
    if arguments.keep != KEEP_TIMES:
        aim = Aim(
            keep=arguments.keep,
            pace=arguments.pace,
            hold=arguments.hold,
            ripple=arguments.move_following,
            whole=not arguments.between_frames,
            lay=arguments.lay,
        )
    _check_paths(arguments)
    question = {
        "shot": arguments.shot,
        "track": arguments.track,
        "number": arguments.jump - 1,
        "aim": aim,
        "world": World(step=arguments.step, kind=arguments.kind),
        "gravity": arguments.gravity,
        "shape_keys": arguments.shape_keys,
        "markers": arguments.markers,
    }
    try:
        with held_back():
            told = _retimed(arguments, question)
            code = int(arguments.fail_on is not None and told.worst >= SEVERITIES.index(arguments.fail_on))
            if told.curves:
                stand(code)
    except SourceError as refusal:
        tell(f"leapwright retime: {arguments.shot}: {refusal}")
        return 3
    lines = list(told.lines)
    if aim is not None:
        said = f"written to {arguments.out}" if told.curves else "nothing written"
        lines.append(f"{counted(told.curves, 'curve')} moved, {said}")
    say("\n".join(map(printable, lines)) + "\n", sys.stdout)
    for difference in told.differs:
        tell(f"not as forecast: {difference}")
    return code


def _retimed(arguments: argparse.Namespace, question: dict[str, Any]) -> Told:
    """Let it be done, into a file beside the one to be written, which is then renamed."""
    if arguments.out is None:
        return _asked({**question, "part": None}, arguments.timeout)
    try:
        with beside(arguments.out) as part:
            return _asked({**question, "part": part}, arguments.timeout)
    except OSError as error:
        raise SettingsError(f"--out cannot be written: {(error.strerror or str(error)).lower()}") from None


def _asked(question: dict[str, Any], timeout: float) -> Told:
    """Retime in a worker process, or here when this is a running Blender."""
    if in_blender():
        from .file import retime_file

        return retime_file(**question)
    if find_spec("bpy") is None:
        raise SourceError(NO_BLENDER)
    from ..shots.pool import ask

    return ask(("..retiming.file:retime_file", question), timeout=timeout)


def _check_paths(arguments: argparse.Namespace) -> None:
    """Refuse to write over anything, before anything is read."""
    out, shot = arguments.out, arguments.shot
    if arguments.keep == KEEP_TIMES:
        if out is not None:
            raise SettingsError("--keep times moves no key, so there is nothing to write to --out")
        return
    if out is None:
        raise SettingsError("--out is needed: the shot itself is never written over")
    if out.suffix.lower() != BLEND_SUFFIX:
        raise SettingsError(f"--out must be a {BLEND_SUFFIX} file, not {out}")
    try:
        there = out.exists() or out.is_symlink()
    except OSError as error:  # a name too long, a folder closed to us
        raise SettingsError(f"--out cannot be written: {(error.strerror or str(error)).lower()}") from None
    if there:
        same = shot.exists() and out.exists() and out.samefile(shot)
        raise SettingsError(f"--out is the shot itself: {out}" if same else f"--out exists already: {out}")
    folder = out.absolute().parent
    if not folder.is_dir():
        raise SettingsError(f"--out's folder does not exist: {folder}")
    if not os.access(folder, os.W_OK):
        raise SettingsError(f"--out cannot be written: no permission in {folder}")
