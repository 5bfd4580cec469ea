"""What a shot's file name says: its sequence, and which take or version of the shot it is."""

import re
from dataclasses import dataclass
from pathlib import PurePosixPath, PureWindowsPath

TAKE = re.compile(r"[._ -](?P<word>v|ver|version|t|tk|take)[._ -]?(?P<number>\d+)$", re.IGNORECASE)
"""A take or version at the end of a name, as in _v02, .v3, _take2, -tk04 (common practice, no source)."""
GROUP = re.compile(r"(?P<letters>[^\W\d_]+)[_-]?\d+(?=$|[._ -])")
"""Letters and a number between separators, as in sq010 or tq020."""


@dataclass(frozen=True, slots=True)
class ShotName:
    """The parts of a shot's name.

    stem       the file's name without folder and suffix
    base       the same without take or version: what two takes of a shot share
    take       the take or version as it is written ("v02"); empty without one
    number     its number; 0 without one
    sequence   the first of several numbered groups ("sq010" of sq010_sh020), else the letters before
               the first number ("tq" of tq010_barge_hop); empty where the name has no number
    """

    stem: str
    base: str
    take: str
    number: int
    sequence: str


def shot_name(path: str) -> ShotName:
    """Take a shot's path, of this system or of Windows, apart.

    >>> shot_name("day/tq020_crate_v03.blend")
    ShotName(stem='tq020_crate_v03', base='tq020_crate', take='v03', number=3, sequence='tq')
    >>> shot_name("sq010_sh020.blend").sequence
    'sq010'
    """
    kind = PureWindowsPath if "\\" in path else PurePosixPath
    stem = kind(path).stem or path
    ending = TAKE.search(stem)
    base = stem[: ending.start()] if ending and ending.start() else stem
    take = stem[len(base) :].lstrip("._ -")
    groups = list(GROUP.finditer(base))
    sequence = ""
    if groups:
        sequence = groups[0][0] if len(groups) > 1 else groups[0]["letters"]
    return ShotName(stem, base, take, int(ending["number"]) if take and ending else 0, sequence)
