"""`leapwright retime`: move the keys of one jump of a shot, and save it as another file."""

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ...analysis.errors import SettingsError, SourceError
from ...analysis.finding import SEVERITIES
from ...analysis.options import values
from ...analysis.retiming.aim import HOLDS, KEEPS, Aim
from ...analysis.retiming.forecast import Forecast
from ...analysis.retiming.warp import LAYS
from ...analysis.terminal import say
from ...analysis.world import GRAVITIES, KINDS, World
from ..shots.quiet import silent

if TYPE_CHECKING:
    from .file import Done

BLEND = ".blend"
TIMES = "times"
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
        help="move the keys of a jump so that push and flight belong together",
        description="Move every key of a jumping character so that push and flight belong together.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.set_defaults(run=run)
    parser.add_argument("shot", metavar="SHOT", type=Path, help="a .blend file; it is never written over")
    parser.add_argument("--out", type=Path, metavar="NEW", help="the .blend file to write; it must not exist yet")
    what = parser.add_argument_group("what to retime")
    what.add_argument("--jump", type=int, required=True, metavar="N", help="number of the jump in its track, from 1")
    what.add_argument("--track", metavar="NAME", help="the track: an object, or armature/bone (the one that jumps)")
    how = parser.add_argument_group("how")
    how.add_argument("--keep", choices=(*KEEPS, TIMES), required=True, help="what stays as it is, see below")
    how.add_argument("--pace", type=float, default=1.0, metavar="N", help="with nothing kept: 2 snappy, 0.5 floaty (1)")
    how.add_argument("--hold", choices=HOLDS, default="takeoff", help="the event that stays on its frame (takeoff)")
    how.add_argument("--move-following", action="store_true",
                     help="move what follows along; otherwise it stays and the settling makes room")  # fmt: skip
    how.add_argument("--between-frames", action="store_true", help="keys need not go to whole frames")
    how.add_argument("--lay", choices=LAYS, default="rounded",
                     help="keys in the air whose values change: those whole frames displace (rounded)")  # fmt: skip
    how.add_argument("--shape-keys", action="store_true", help="move the shape keys of the character's meshes too")
    how.add_argument("--markers", action="store_true", help="move markers too")
    judge = parser.add_argument_group("what to judge against")
    judge.add_argument("--gravity", type=values.gravity, metavar="G",
                       help=f"a world ({', '.join(GRAVITIES)}) or m/s² (the scene's)")  # fmt: skip
    judge.add_argument("--kind", choices=KINDS, default="person", metavar="KIND", help=f"{', '.join(KINDS)} (person)")
    judge.add_argument("--step", type=int, default=1, metavar="N", help="frames a pose: 2 for a shot on twos (1)")
    judge.add_argument("--fail-on", choices=SEVERITIES, metavar="SEVERITY",
                       help=f"exit 1 when the jump keeps a finding at or above: {', '.join(SEVERITIES)}")  # fmt: skip


def run(arguments: argparse.Namespace, _read_blends: Callable[..., Any]) -> int:
    """Retime what the arguments name; raise RetimeError or SettingsError for what cannot be."""
    aim = None
    if arguments.keep != TIMES:
        aim = Aim(
            keep=arguments.keep,
            pace=arguments.pace,
            hold=arguments.hold,
            ripple=arguments.move_following,
            whole=not arguments.between_frames,
            lay=arguments.lay,
        )
    world = World(step=arguments.step, kind=arguments.kind)
    _check_paths(arguments)
    if arguments.jump < 1:
        raise SettingsError(f"jumps are counted from 1, not {arguments.jump}")
    try:
        done = _retime_file(arguments, aim, world)
    except SourceError as refusal:
        print(f"leapwright retime: {arguments.shot}: {refusal}", file=sys.stderr)
        return 3
    say("\n".join(_lines(done)) + "\n", sys.stdout)
    for difference in done.differs:
        print(f"not as forecast: {difference}", file=sys.stderr)
    worst = max((finding.rank for finding in done.findings), default=-1)
    return int(arguments.fail_on is not None and worst >= SEVERITIES.index(arguments.fail_on))


def _retime_file(arguments: argparse.Namespace, aim: Aim | None, world: World) -> "Done":
    from ..shots.worker import NO_BLENDER

    try:
        with silent():  # Blender 5.2 says where its colors are when it is imported
            from .file import retime_file
    except ModuleNotFoundError as missing:
        if missing.name != "bpy":
            raise
        raise SourceError(NO_BLENDER) from None
    return retime_file(
        arguments.shot,
        arguments.out,
        track=arguments.track,
        number=arguments.jump - 1,
        aim=aim,
        world=world,
        gravity=arguments.gravity,
        shape_keys=arguments.shape_keys,
        markers=arguments.markers,
    )


def _check_paths(arguments: argparse.Namespace) -> None:
    """Refuse to write over anything, before anything is read."""
    out, shot = arguments.out, arguments.shot
    if arguments.keep == TIMES:
        if out is not None:
            raise SettingsError("--keep times moves no key, so there is nothing to write to --out")
        return
    if out is None:
        raise SettingsError("--out is needed: the shot itself is never written over")
    if out.suffix.lower() != BLEND:
        raise SettingsError(f"--out must be a {BLEND} file, not {out}")
    try:
        there = out.exists() or out.is_symlink()
    except OSError as error:  # a name too long, a folder closed to us
        raise SettingsError(f"--out cannot be written: {(error.strerror or str(error)).lower()}") from None
    if there:
        same = shot.exists() and out.exists() and out.samefile(shot)
        raise SettingsError(f"--out is the shot itself: {out}" if same else f"--out exists already: {out}")
    if not out.absolute().parent.is_dir():
        raise SettingsError(f"--out's folder does not exist: {out.absolute().parent}")


def _lines(done: "Done") -> list[str]:
    head = f"{done.track}, jump {done.number + 1}"
    if done.forecast is None:
        return [f"{head}: {done.said}"]
    from .words import moves, named, remarks, table

    forecast: Forecast = done.forecast
    rows = [(head, "before", "after", "asked for"), *table(forecast)]
    widths = [max(len(row[n]) for row in rows) for n in range(4)]
    lines = ["  ".join((row[0].ljust(widths[0]), *(t.rjust(w) for t, w in zip(row[1:], widths[1:], strict=True))))
             for row in rows]  # fmt: skip
    lines += [line[:1].lower() + line[1:] for line in moves(forecast)]
    lines += [f"gone: {named(forecast.goes)}"] * bool(forecast.goes)
    lines += [f"new: {named(forecast.comes)}"] * bool(forecast.comes)
    lines += [remark[:1].lower() + remark[1:] for remark in remarks(forecast)]
    return [*lines, f"{done.curves} curves moved, written to {done.out}"]
