"""The options of an audit of a day's shots, group by group, and what they come to."""

import argparse

from ..errors import SettingsError
from ..files import IN_BLENDER
from ..house import PRESETS
from ..shot import Extras
from ..show.keys import FEET
from ..sources import READERS
from ..world import GRAVITIES, JUMPERS
from . import results, review, values


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the paths and every group of options."""
    kinds_of_file = ", ".join([*IN_BLENDER, *READERS])
    parser.add_argument("paths", nargs="+", metavar="PATH", type=values.file_path, help=f"{kinds_of_file}, or a folder")
    _what(parser.add_argument_group("what to audit"))
    _footage(parser.add_argument_group("what to know of footage (--track marker:NAME)"))
    _judge(parser.add_argument_group("what to judge against"))
    written = parser.add_argument_group("what to write")
    results.add(written)
    written.add_argument("--thumbnails", action="store_true",
                         help="render a small picture of each jump of a .blend, too")  # fmt: skip
    review.add(parser.add_argument_group("how to review"))
    _run(parser.add_argument_group("how to read files"))


def extras_of(arguments: argparse.Namespace) -> Extras:
    """Tell what to read besides tracks. Raises SettingsError for a length that is known by halves."""
    length, between, pixels = arguments.known_length, arguments.between, arguments.pixels
    if (length is None) != (between is None and pixels is None) or (between is not None and pixels is not None):
        raise SettingsError("a known length needs --known-length and either --between or --pixels")
    return Extras(arguments.feet, length=length, between=tuple(between) if between else None, pixels=pixels,
                  poses=arguments.report is not None or arguments.json is not None,
                  thumbnails=arguments.thumbnails)  # fmt: skip


def _what(group: argparse._ArgumentGroup) -> None:
    group.add_argument("--track", metavar="NAME", help="only this track: an object, armature/bone, or com")
    group.add_argument("--fps", type=values.fps, metavar="N", help="frames per second of CSV tracks (24)")
    group.add_argument("--feet", choices=FEET, metavar="WHEN", help="read the feet of armatures: on, off, or auto, "
                       "where the path alone leaves a jump unsure (as the file says, else auto)")  # fmt: skip


def _footage(group: argparse._ArgumentGroup) -> None:
    group.add_argument("--known-length", type=values.length, metavar="LENGTH",
                       help="a length in the picture, such as 1.8m")  # fmt: skip
    group.add_argument("--between", nargs=2, metavar="MARKER", help="the two markers it lies between")
    group.add_argument("--pixels", type=values.pixels, metavar="N", help="or the pixels it takes up")


def _judge(group: argparse._ArgumentGroup) -> None:
    worlds, kinds = ", ".join(GRAVITIES), ", ".join(JUMPERS)
    group.add_argument("--gravity", type=values.gravity_or_scene, metavar="G",
                       help=f"scene, a world ({worlds}) or m/s² (a .blend: its scene's; a track: Earth's)")  # fmt: skip
    group.add_argument("--kind", choices=JUMPERS, metavar="KIND", help=f"{kinds} (person)")
    group.add_argument("--step", type=values.step, metavar="N",
                       help="frames a pose: 2 for a shot on twos (1)")  # fmt: skip
    group.add_argument("--smallest-hop", type=values.length, metavar="LENGTH",
                       help="lowest rise that counts as a jump (5cm)")  # fmt: skip
    group.add_argument("--limits", type=values.limits, metavar="FILE",
                       help=f"TOML of thresholds, or a preset: {', '.join(PRESETS)}")  # fmt: skip


def _run(group: argparse._ArgumentGroup) -> None:
    group.add_argument("--explain", action="store_true",
                       help="read nothing; say what holds for each shot, and which rule gave it")  # fmt: skip
    group.add_argument("--no-cache", action="store_true", help="read every file, also those that did not change")
    group.add_argument("--shard", type=values.shard, metavar="K/N", help="only part K of N, for leapwright merge")
    group.add_argument("--scheduler", metavar="ADDRESS",
                       help="a Dask cluster to read them: tcp://host:8786 (pip install leapwright[farm])")  # fmt: skip
    group.add_argument("--jobs", type=values.jobs, metavar="N",
                       help="files read at once here (as many as it helps)")  # fmt: skip
    group.add_argument("--timeout", type=values.seconds, default=120.0, metavar="SECONDS",
                       help="longest wait for one (120)")  # fmt: skip
