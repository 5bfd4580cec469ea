"""The document of a day as JSON; those of earlier days, or of parts of a day, read back, also out of a page."""

import base64
import json
import re
import zlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from ..errors import SettingsError, SourceError
from ..json_text import parsed
from ..schema import faults
from ..sources.track_csv import decoded

AUDIT_SCHEMA = "leapwright-audit/1"
INDEX_PAGE = "index.html"
EMBEDDED = re.compile(rb"<script type=application/octet-stream id=data>([A-Za-z0-9+/=]*)</script>")
MOST_DAY_BYTES = 500_000_000
LARGEST_FIGURE = 1e12
"""Largest number that is taken for a figure: no figure of a jump comes near it, whatever its unit."""
FROM_SHOT = ("fps", "gravity")
"""What a jump has of its shot, where it does not say it itself."""


def as_document(shots: Iterable[Mapping[str, Any]], version: str, **more: object) -> dict[str, Any]:
    """Put shots, as `shot_data` gives them, together as the audit's document; more fields stand before the shots."""
    return {"schema": AUDIT_SCHEMA, "leapwright": version, **more, "shots": list(shots)}


def as_json(document: Mapping[str, Any]) -> str:
    """Write a document as one JSON text, a line a shot, ASCII only, with a final newline."""
    lines = [json.dumps(shot, allow_nan=False) for shot in document["shots"]]
    head = "".join(f'"{key}": {json.dumps(value)}, ' for key, value in document.items() if key != "shots")
    return f'{{{head}"shots": [' + "\n" * bool(lines) + ",\n".join(lines) + "]}\n"


def read_document(path: Path) -> dict[str, Any]:
    """Read a day's document from its JSON, its page, or the folder of its report.

    Raises SettingsError for what is no such file; what it returns has what rows, tables and pages read.
    """
    try:
        file = path / INDEX_PAGE if path.is_dir() else path
        if file.stat().st_size > MOST_DAY_BYTES:
            raise SettingsError(f"{file}: it is larger than {MOST_DAY_BYTES // 1_000_000} MB: no day is")
        data = file.read_bytes()
        text = decoded(_unpacked(file, data) if file.suffix.lower() in (".html", ".htm") else data)
        document = parsed(text, most=LARGEST_FIGURE)
    except OSError as error:
        raise SettingsError(f"{path} cannot be read: {(error.strerror or str(error)).lower()}") from None
    except SourceError as error:
        raise SettingsError(f"{path}: {error}") from None
    if not isinstance(document, dict) or document.get("schema") != AUDIT_SCHEMA:
        raise SettingsError(f"{path}: it holds no audit (schema {AUDIT_SCHEMA})")
    wrong = next(_faults(document), None)
    if wrong is not None:
        raise SettingsError(f"{path}: its audit is not sound: {wrong}")
    return _completed(document)


def _unpacked(path: Path, page: bytes) -> bytes:
    found = EMBEDDED.search(page)
    if found is None:
        raise SettingsError(f"{path}: it is no page of Leapwright's, or holds no figures")
    try:
        unpacker = zlib.decompressobj()
        text = unpacker.decompress(base64.b64decode(found[1]), MOST_DAY_BYTES)
    except (zlib.error, ValueError) as error:
        raise SettingsError(f"{path}: its figures are damaged ({error})") from None
    if unpacker.unconsumed_tail:
        raise SettingsError(f"{path}: its figures are larger than {MOST_DAY_BYTES // 1_000_000} MB: no day's are")
    return text


def _faults(document: Mapping[str, Any]) -> Iterator[str]:
    """Tell what is wrong with a document, sentence by sentence: by its schema, then in what no schema says."""
    wrong = next(faults(document, _schema()), None)
    if wrong is not None:
        yield wrong
        return
    for shot in document["shots"]:
        for track in shot["tracks"]:
            for number, jump in enumerate(track["jumps"], 1):
                yield from (f"jump {number} of {track['name']} in {shot['path']} {said}" for said in _odd(shot, jump))


def _odd(shot: Mapping[str, Any], jump: Mapping[str, Any]) -> Iterator[str]:
    lacking = [name for name in FROM_SHOT if jump.get(name, shot[name]) is None]
    if lacking:
        yield f"lacks {' and '.join(lacking)}"
    if jump["takeoff"]["frame"] > jump["landing"]["frame"]:
        yield "lands before it takes off"
    path = jump.get("path")
    if path is not None and len({len(path[axis]) for axis in ("frames", "x", "y", "z")}) > 1:
        yield "has a path of several lengths"
    if not all(pose["lines"] for pose in jump.get("poses", ())):
        yield "has a pose without a line"
    if any(len(line) % 2 for pose in jump.get("poses", ()) for line in pose["lines"]):
        yield "has a pose with half a point"


def _completed(document: dict[str, Any]) -> dict[str, Any]:
    """Add what a version before had not yet, as what it is: not known."""
    fields = _schema()["$defs"]["jump"]["properties"].items()
    unknown = {name: None for name, field in fields if "null" in field.get("type", ()) or "anyOf" in field}
    for shot in document["shots"]:
        ours = {name: shot[name] for name in FROM_SHOT} | {"held": False}
        for track in shot["tracks"]:
            for jump in track["jumps"]:
                jump.update({name: value for name, value in (unknown | ours).items() if name not in jump})
    return document


@cache
def _schema() -> Any:
    return parsed((Path(__file__).parent.parent / "report" / "audit.schema.json").read_text(encoding="utf-8"))


def merged(documents: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Put the parts of a day together, in their order: what one run of all its shots would have written.

    Raises SettingsError when a part is missing, or there twice, or parts are of several days or versions.
    """
    parts: dict[int, Mapping[str, Any]] = {}
    for document in documents:
        part, count = _shard(document)
        if count != _shard(documents[0])[1]:
            raise SettingsError(f"parts of {count} and of {_shard(documents[0])[1]} do not belong together")
        if part in parts:
            raise SettingsError(f"part {part} of {count} is there twice")
        parts[part] = document
    count = _shard(documents[0])[1]
    missing = [str(part) for part in range(1, count + 1) if part not in parts]
    if missing:
        raise SettingsError(f"the day lacks part{'s' * (len(missing) > 1)} {', '.join(missing)} of {count}")
    heads = [{key: value for key, value in parts[part].items() if key not in ("shots", "shard")}
             for part in sorted(parts)]  # fmt: skip
    if any(head != heads[0] for head in heads):
        raise SettingsError("the parts were made by several versions, or with several settings")
    return {**heads[0], "shots": [shot for part in sorted(parts) for shot in parts[part]["shots"]]}


def _shard(document: Mapping[str, Any]) -> tuple[int, int]:
    shard = document.get("shard")
    if not (isinstance(shard, list) and len(shard) == 2 and all(isinstance(one, int) for one in shard)):
        raise SettingsError("a document is no part of a day: it was not made with --shard")
    return shard[0], shard[1]
