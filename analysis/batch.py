"""A day's shots, from the cache or read and audited, as one document in the order of the files."""

import signal
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from .cache import Cache, cache_folder, made_by
from .dailies.document import as_document
from .day import AuditEach, DayRequest, audit_files
from .ending import SHELL
from .progress import Progress
from .version import leapwright_version
from .ways import Ways, settings_told

INTERRUPTED = SHELL + signal.SIGINT
"""Exit code of Ctrl-C: what is done by then is written."""


def audited(
    ways: Ways, audit_each: AuditEach, *, use_cache: bool = True, shard: tuple[int, int] | None = None
) -> tuple[dict[str, Any], BaseException | None]:
    """Return the document of a day; with what ended it, where that was Ctrl-C: then it holds the shots done by then.

    Every shot is laid flat as it comes, so that tracks of a long day are not all held at once.
    """
    shots: list[dict[str, Any] | None] = [None] * len(ways.files)
    ended: BaseException | None = None
    cache = Cache(cache_folder(), made_by()) if use_cache else None
    try:
        if cache is not None:
            for place, (named, way) in enumerate(zip(ways.files, ways.ways, strict=True)):
                shots[place] = cache.get(named.path, key_of(way)) if named.reason is None else None
        progress = Progress(len(shots), sum(shot is not None for shot in shots))
        for way, places in _groups(ways.ways, [place for place, shot in enumerate(shots) if shot is None]):
            files = [ways.files[place] for place in places]
            with closing(audit_files(files, way, audit_each)) as found:  # whatever ends it, workers end with it
                from .report.data import shot_data

                for number, shot in found:
                    data = shots[places[number]] = shot_data(shot)
                    if cache is not None:
                        cache.keep(Path(shot.path), key_of(way), data, shot.needs)
                    progress.step(shot.path, unreadable=shot.reason is not None)
    except (KeyboardInterrupt, SystemExit) as end:
        if isinstance(end, SystemExit) and end.code != INTERRUPTED:
            raise
        ended = end
    if cache is not None:
        cache.tidy()
    more: dict[str, Any] = {"show": ways.name} if ways.name else {}
    more |= {"settings": dict(settings_told(ways))}
    more |= {"shard": list(shard)} if shard else {}
    return as_document((shot for shot in shots if shot is not None), leapwright_version(), **more), ended


def key_of(way: DayRequest) -> tuple[object, ...]:
    """Tell what of a way its results depend on."""
    return way.settings, way.track, way.gravity, way.fps, way.extras


def _groups(ways: Sequence[DayRequest], places: Sequence[int]) -> list[tuple[DayRequest, list[int]]]:
    """Return places by their way, since files of one way are read together."""
    groups: dict[tuple[object, ...], tuple[DayRequest, list[int]]] = {}
    for place in places:
        groups.setdefault(key_of(ways[place]), (ways[place], []))[1].append(place)
    return list(groups.values())
