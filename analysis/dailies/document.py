"""Documents of earlier days, or of parts of a day, read back: from JSON, or out of a report's page."""

import base64
import json
import re
import zlib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from ..errors import SettingsError

SCHEMA = "leapwright-audit/1"
PAGE = "index.html"
EMBEDDED = re.compile(rb"<script type=application/octet-stream id=data>([A-Za-z0-9+/=]*)</script>")
MOST_BYTES = 500_000_000
EVENT = ("frame", "height")
FIGURES = (
    "jump_height", "drop_height", "airtime_frames", "push_ratio", "air_pace", "agreement", "rise_frames_expected",
    "fall_frames_expected", "fitted_gravity", "push_frames",
)  # fmt: skip
STATUSES = ("ok", "unreadable")


def read_document(path: Path) -> dict[str, Any]:
    """Read a day's document from its JSON, its page, or the folder of its report.

    Raises SettingsError for what is no such file; what it returns has what rows, tables and pages read.
    """
    try:
        file = path / PAGE if path.is_dir() else path
        if file.stat().st_size > MOST_BYTES:
            raise SettingsError(f"{file}: it is larger than {MOST_BYTES // 1_000_000} MB: no day is")
        data = file.read_bytes()
        document = json.loads(_unpacked(file, data) if file.suffix.lower() in (".html", ".htm") else data)
    except OSError as error:
        raise SettingsError(f"{path} cannot be read: {(error.strerror or str(error)).lower()}") from None
    except (ValueError, RecursionError) as error:
        raise SettingsError(f"{path}: it is not JSON ({error})") from None
    if not isinstance(document, dict) or document.get("schema") != SCHEMA:
        raise SettingsError(f"{path}: it holds no audit (schema {SCHEMA})")
    wrong = next(_faults(document), None)
    if wrong is not None:
        raise SettingsError(f"{path}: its audit is not sound: {wrong}")
    return document


def _unpacked(path: Path, page: bytes) -> bytes:
    found = EMBEDDED.search(page)
    if found is None:
        raise SettingsError(f"{path}: it is no page of Leapwright's, or holds no figures")
    try:
        unpacker = zlib.decompressobj()
        text = unpacker.decompress(base64.b64decode(found[1]), MOST_BYTES)
    except zlib.error as error:
        raise SettingsError(f"{path}: its figures are damaged ({error})") from None
    if unpacker.unconsumed_tail:
        raise SettingsError(f"{path}: its figures are larger than {MOST_BYTES // 1_000_000} MB: no day's are")
    return text


def _faults(document: Mapping[str, Any]) -> Any:
    """What is wrong with a document, sentence by sentence, as far as it is read here."""
    shots = document.get("shots")
    if not isinstance(shots, list):
        yield "it has no list of shots"
        return
    for place, shot in enumerate(shots, 1):
        sound = isinstance(shot, dict) and isinstance(shot.get("path"), str) and shot.get("status") in STATUSES
        if not sound or not isinstance(shot.get("tracks"), list):
            yield f"shot {place} lacks path, status or tracks"
            continue
        for track in shot["tracks"]:
            yield from _track_faults(track, shot["path"])


def _track_faults(track: Any, path: str) -> Any:
    named = isinstance(track, dict) and isinstance(track.get("name"), str)
    if not named or not isinstance(track.get("jumps"), list) or not _texts(track.get("notes")):
        yield f"a track of {path} lacks name, notes or jumps"
        return
    for number, jump in enumerate(track["jumps"], 1):
        try:
            sound = _is_jump(jump)
        except (KeyError, TypeError, ValueError):
            sound = False
        if not sound:
            yield f"jump {number} of {track['name']} in {path} lacks events, figures or findings"


def _is_jump(jump: Mapping[str, Any]) -> bool:
    events = all(jump[name][part] is not None for name in ("takeoff", "apex", "landing") for part in EVENT)
    figures = all(jump[name] is None or isinstance(jump[name], (int, float)) for name in FIGURES)
    findings = all(
        finding["severity"] in ("note", "check", "fix")
        and _texts([finding["code"], finding["message"], finding["mend"]])
        and len([float(frame) for frame in finding["frames"]]) == 2
        for finding in jump["findings"]
    )
    return events and figures and findings and jump["takeoff"]["frame"] <= jump["landing"]["frame"]


def _texts(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(text, str) for text in value)


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
        raise SettingsError(f"of {count} parts, {', '.join(missing)} missing")
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
