"""A document held against a JSON Schema of ours: the keywords that those use, and no other.

JSON Schema 2020-12, https://json-schema.org/draft/2020-12/json-schema-validation
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

TYPES_OF_KIND: dict[str, tuple[type, ...]] = {
    "object": (dict,),
    "array": (list,),
    "string": (str,),
    "number": (int, float),
    "integer": (int,),
    "boolean": (bool,),
    "null": (type(None),),
}
KIND_WORDS = {"object": "an object", "array": "a list", "string": "a text", "number": "a number",
         "integer": "a whole number", "boolean": "true or false", "null": "null"}  # fmt: skip
KNOWN_KEYWORDS = frozenset(
    ("$schema", "$defs", "$ref", "title", "description", "type", "const", "enum", "pattern", "minimum", "maximum",
     "minItems", "maxItems", "maxLength", "items", "required", "properties", "additionalProperties", "anyOf", "if",
     "then")
)  # fmt: skip


def faults(value: Any, schema: Mapping[str, Any]) -> Iterator[str]:
    """Yield what in a value is not as its schema has it, each as a sentence that begins with its place.

    Raises ValueError for a schema with a keyword that is not known here.

    >>> list(faults({"fps": "24"}, {"type": "object", "properties": {"fps": {"type": "number"}}}))
    ['fps must be a number, not a text']
    """
    yield from _faults(value, schema, schema, "")


def _faults(value: Any, schema: Mapping[str, Any], whole: Mapping[str, Any], place: str) -> Iterator[str]:
    if unknown := schema.keys() - KNOWN_KEYWORDS:
        raise ValueError(f"not known in a schema: {', '.join(sorted(unknown))}")
    if "$ref" in schema:
        yield from _faults(value, whole["$defs"][schema["$ref"].rpartition("/")[2]], whole, place)
    where = place or "it"
    kinds = schema.get("type", ())
    kinds = [kinds] if isinstance(kinds, str) else kinds
    if kinds and not any(_is(value, kind) for kind in kinds):
        yield f"{where} must be {' or '.join(KIND_WORDS[kind] for kind in kinds)}, not {_kind(value)}"
        return
    yield from (f"{where} {said}" for said in _limits(value, schema))
    if isinstance(value, dict):
        yield from _fields(value, schema, whole, place)
    elif isinstance(value, list) and "items" in schema:
        for number, item in enumerate(value):
            yield from _faults(item, schema["items"], whole, f"{place}[{number}]")
    if "anyOf" in schema and not any(_fits(value, one, whole) for one in schema["anyOf"]):
        # Ours are all "that, or null": what is wrong is what is not as that.
        yield from _faults(value, schema["anyOf"][0], whole, place)
    if "if" in schema and _fits(value, schema["if"], whole):
        yield from _faults(value, schema["then"], whole, place)


def _fields(value: dict[str, Any], schema: Mapping[str, Any], whole: Mapping[str, Any], place: str) -> Iterator[str]:
    lacking = [name for name in schema.get("required", ()) if name not in value]
    if lacking:
        yield f"{place or 'it'} lacks {', '.join(lacking)}"
    known, others = schema.get("properties", {}), schema.get("additionalProperties", {})
    for name, field in value.items():
        within = known.get(name, others)
        if within:
            yield from _faults(field, within, whole, f"{place}.{name[:40]}" if place else name[:40])


def _limits(value: Any, schema: Mapping[str, Any]) -> Iterator[str]:
    if "const" in schema and not _same(value, schema["const"]):
        yield f"must be {schema['const']!r}"
    if "enum" in schema and not any(_same(value, one) for one in schema["enum"]):
        yield f"must be one of {', '.join(map(str, schema['enum']))}"
    if isinstance(value, str):
        if "pattern" in schema and not re.search(schema["pattern"], value):
            yield f"must be written as {schema['pattern']}"
        if len(value) > schema.get("maxLength", len(value)):
            yield f"must have at most {schema['maxLength']} letters"
    if _is(value, "number") and not schema.get("minimum", value) <= value <= schema.get("maximum", value):
        yield f"is {value:g}, outside {schema.get('minimum', '')} to {schema.get('maximum', '')}"
    if isinstance(value, list) and not schema.get("minItems", 0) <= len(value) <= schema.get("maxItems", len(value)):
        yield f"has {len(value)} entries, not {schema.get('minItems', '')} to {schema.get('maxItems', '')}"


def _fits(value: Any, schema: Mapping[str, Any], whole: Mapping[str, Any]) -> bool:
    return next(_faults(value, schema, whole, ""), None) is None


def _is(value: Any, kind: str) -> bool:
    """Say whether a value is of a kind; true and false are no numbers, and 2.0 is a whole one."""
    if isinstance(value, bool):
        return kind == "boolean"
    whole = kind == "integer" and isinstance(value, float) and value.is_integer()
    return whole or isinstance(value, TYPES_OF_KIND[kind])


def _same(value: Any, other: Any) -> bool:
    return isinstance(value, bool) == isinstance(other, bool) and bool(value == other)


def _kind(value: Any) -> str:
    return next(
        KIND_WORDS[kind] for kind in ("boolean", "number", "string", "array", "object", "null") if _is(value, kind)
    )
