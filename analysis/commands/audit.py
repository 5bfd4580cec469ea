"""`leapwright audit`: read the day's shots, audit every jump, write what was asked for."""

import argparse
import sys
import time
import traceback
from collections.abc import Callable, Generator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

from ..errors import LeapwrightError, SettingsError, SourceError
from ..files import Named, named_files
from ..finding import SEVERITIES
from ..limits import Limits
from ..outputs import Outputs
from ..settings import Settings
from ..shot import Extras, Reading, Shot, audit_reading
from ..sources import READERS, check_is_file, listed, read_file
from ..units import metres
from ..world import GRAVITIES, KINDS, World

BLEND, MOTION = ".blend", ".bvh"
IN_BLENDER = (BLEND, MOTION, ".fbx", ".glb")
"""What Blender opens or imports. In a folder only the first two count: the others hold models more often."""
SUMMARY = "audit the jumps of shots"
EPILOG = """\
A folder is searched through. In a .blend these are audited, unless --track names one: the centre of mass of every
armature whose body is mapped, or whose bones are named like a person's; the root-most keyed bone of every other;
every keyed object without a parent.

exit code:
  0  done
  1  done, and something was found at or above --fail-on
  2  wrong call: nothing written
  3  some shot could not be read; all others are done and written (comes before 1)

examples:
  leapwright audit tq010_barge_hop.blend
  leapwright audit dailies/ --json audit.json --report report/ --fail-on fix
  leapwright audit tq020_crate_floaty.blend --track Brindle/root --gravity moon
  leapwright audit moss_hop.csv --fps 25 --kind person"""


def add(subparsers: Any) -> None:
    """Declare `audit` and its arguments."""
    parser = subparsers.add_parser(
        "audit",
        help=SUMMARY,
        description="Find every jump, measure its push and its flight, say what is off and how to mend it.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.set_defaults(run=run)
    kinds_of_file = ", ".join([*IN_BLENDER, *READERS])
    parser.add_argument("paths", nargs="+", metavar="PATH", type=_path, help=f"{kinds_of_file}, or a folder")
    what = parser.add_argument_group("what to audit")
    what.add_argument("--track", metavar="NAME", help="only this track: an object, armature/bone, or com")
    what.add_argument("--fps", type=_fps, metavar="N", help="frames per second of CSV tracks (24)")
    what.add_argument("--feet", action="store_true", help="read when the feet of armatures are on the ground, too")
    film = parser.add_argument_group("what to know of footage (--track marker:NAME)")
    film.add_argument("--known-length", type=_length, metavar="LENGTH", help="a length in the picture, such as 1.8m")
    film.add_argument("--between", nargs=2, metavar="MARKER", help="the two markers it lies between")
    film.add_argument("--pixels", type=_pixels, metavar="N", help="or the pixels it takes up")
    how = parser.add_argument_group("what to judge against")
    worlds, kinds = ", ".join(GRAVITIES), ", ".join(KINDS)
    how.add_argument("--gravity", type=_gravity, metavar="G", help=f"scene, a world ({worlds}) or m/s² "
                     "(a .blend: its scene's; a track: Earth's)")  # fmt: skip
    how.add_argument("--kind", choices=KINDS, default="person", metavar="KIND", help=f"{kinds} (person)")
    how.add_argument("--step", type=_step, default=1, metavar="N", help="frames a pose: 2 for a shot on twos (1)")
    how.add_argument("--smallest-hop", type=_length, metavar="LENGTH", help="lowest rise that counts as a jump (5cm)")
    out = parser.add_argument_group("what to write")
    out.add_argument("--report", type=_path, metavar="DIR", help="write DIR/index.html, a page with pictures")
    out.add_argument("--json", type=_path, metavar="FILE", help="write every figure as JSON; - for stdout")
    out.add_argument("--csv", type=_path, metavar="FILE", help="write a row a jump as CSV; - for stdout")
    out.add_argument("--fail-on", choices=SEVERITIES, metavar="SEVERITY",
                     help=f"exit 1 when something is found at or above: {', '.join(SEVERITIES)}")  # fmt: skip
    run_as = parser.add_argument_group("how to read files with Blender")
    run_as.add_argument("--jobs", type=_jobs, metavar="N", help="files read at once (as many as it helps)")
    run_as.add_argument("--timeout", type=_seconds, default=120.0, metavar="SECONDS", help="longest wait for one (120)")


def run(arguments: argparse.Namespace, read_blends: Callable[..., Any]) -> int:
    """Audit what the arguments name; raise SettingsError for a wrong call."""
    settings = Settings(
        World(step=arguments.step, kind=arguments.kind),
        replace(Limits(), smallest_hop=arguments.smallest_hop) if arguments.smallest_hop else Limits(),
    )
    _extras(arguments)
    outputs = Outputs(arguments.report, arguments.json, arguments.csv)
    outputs.check(arguments.paths)
    files = named_files(arguments.paths, (BLEND, MOTION, *READERS), outputs.earlier())
    outputs.check([named.path for named in files])
    shots: list[Shot | None] = [None] * len(files)
    with closing(_shots(files, arguments, settings, read_blends)) as found:  # whatever ends it, workers end with it
        for done, (place, shot) in enumerate(found, 1):
            shots[place] = shot
            _progress(done, len(files), shot)
    outputs.write([shot for shot in shots if shot is not None])
    if any(shot is not None and shot.reason is not None for shot in shots):
        return 3
    worst = max((shot.worst for shot in shots if shot is not None), default=-1)
    return int(arguments.fail_on is not None and worst >= SEVERITIES.index(arguments.fail_on))


def _shots(
    files: list[Named], arguments: argparse.Namespace, settings: Settings, read_blends: Callable[..., Any]
) -> Generator[tuple[int, Shot], None, None]:
    """Every file's place in the list with its shot, as they are done: track files first."""
    blends: dict[Path, int] = {}
    for place, named in enumerate(files):
        if named.reason is not None:
            yield place, Shot(str(named.path), named.reason)
        elif named.path.suffix.lower() not in IN_BLENDER:
            yield place, _track_shot(named.path, arguments, settings)
        else:
            try:
                check_is_file(named.path)
                blends[named.path] = place
            except SourceError as refusal:
                yield place, Shot(str(named.path), str(refusal))
    options = {"track": arguments.track, "jobs": arguments.jobs, "timeout": arguments.timeout}
    options["extras"] = _extras(arguments)
    if not blends:
        return
    with closing(read_blends(list(blends), **options)) as readings:
        for path, reading, seconds in readings:
            began = time.perf_counter() - seconds
            yield blends[path], _shot(path, lambda reading=reading: reading, arguments, settings, began)


def _track_shot(path: Path, arguments: argparse.Namespace, settings: Settings) -> Shot:
    def read() -> Reading:
        check_is_file(path)
        if path.suffix.lower() not in READERS:
            raise SourceError(f"it is not a shot: those are named {listed([*IN_BLENDER, *READERS])}")
        reading = read_file(path, fps=arguments.fps)
        tracks = tuple(track for track in reading.tracks if arguments.track in (None, track.name))
        if not tracks:
            names = ", ".join(f'"{track.name}"' for track in reading.tracks)
            raise SourceError(f'it holds no track "{arguments.track}"; it has {names}')
        note = ("the file has no gravity: Earth's taken",) if arguments.gravity == "scene" else ()
        return replace(reading, tracks=tracks, notes=(*reading.notes, *note))

    return _shot(path, read, arguments, settings, time.perf_counter())


def _shot(
    path: Path,
    read: Callable[[], Reading | LeapwrightError],
    arguments: argparse.Namespace,
    settings: Settings,
    began: float,
) -> Shot:
    """Read and audit one file; a refusal becomes its reason, and so does a bug, which shows its traceback."""
    try:
        reading = read()
        if isinstance(reading, LeapwrightError):
            raise reading
        gravity = None if arguments.gravity == "scene" else arguments.gravity
        return audit_reading(str(path), reading, settings, gravity=gravity, clock=lambda: time.perf_counter() - began)
    except LeapwrightError as refusal:
        reason = str(refusal)
    except Exception as fault:  # one bad shot is a row, not the end
        traceback.print_exc()
        reason = f"a fault in Leapwright, please report it: {type(fault).__name__}: {fault}"
    return Shot(str(path), reason, seconds=time.perf_counter() - began)


def _extras(arguments: argparse.Namespace) -> Extras:
    """What to read besides tracks. Raises SettingsError for a length that is known by halves."""
    length, between, pixels = arguments.known_length, arguments.between, arguments.pixels
    if (length is None) != (between is None and pixels is None) or (between is not None and pixels is not None):
        raise SettingsError("a known length needs --known-length and either --between or --pixels")
    return Extras(arguments.feet, length, tuple(between) if between else None, pixels)


def _progress(done: int, total: int, shot: Shot) -> None:
    """Say how far it is on stderr: one line rewritten on a terminal, a line a shot elsewhere."""
    name = "".join(letter if letter.isprintable() else "?" for letter in Path(shot.path).stem)
    line = f"[{done}/{total}] {name}" + (" unreadable" if shot.reason is not None else "")
    if not sys.stderr.isatty():
        print(line, file=sys.stderr)
    else:
        sys.stderr.write(f"\r\x1b[K{line[:79]}" if done < total else "\r\x1b[K")
        sys.stderr.flush()


def _gravity(text: str) -> float | str:
    if text == "scene" or text in GRAVITIES:
        return GRAVITIES.get(text, text)
    try:
        return World(gravity=float(text)).gravity
    except (ValueError, SettingsError):
        raise argparse.ArgumentTypeError(
            f"must be scene, one of {', '.join(GRAVITIES)}, or a number of m/s² above 0, not {text!r}"
        ) from None


def _length(text: str) -> float:
    try:
        return metres(text)
    except SettingsError as refusal:
        raise argparse.ArgumentTypeError(str(refusal)) from None


def _above_zero(text: str, kind: type, what: str, most: float) -> Any:
    try:
        value = kind(text)
    except ValueError:
        value = 0
    if not 0 < value <= most:
        raise argparse.ArgumentTypeError(f"must be {what} above 0 and at most {most:g}, not {text!r}")
    return value


def _fps(text: str) -> float:
    return _above_zero(text, float, "a number", 1e5)


def _pixels(text: str) -> float:
    return _above_zero(text, float, "a number of pixels", 1e6)


def _jobs(text: str) -> int:
    return _above_zero(text, int, "a whole number", 64)


def _step(text: str) -> int:
    return _above_zero(text, int, "a whole number of frames", 1e6)


def _path(text: str) -> Path:
    if not text:
        raise argparse.ArgumentTypeError("must not be empty")
    return Path(text)


def _seconds(text: str) -> float:
    return _above_zero(text, float, "a number of seconds", 1e6)
