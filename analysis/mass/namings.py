"""Which bone is which segment of the body, told by the names that riggers and capture systems give bones.

Known: the host's human meta-rig and the rig generated from it (its DEF- bones), skeletons of .bvh files named by
bone (LeftUpLeg) or by joint (LeftKnee), and the usual ways to write a side: Left/Right, .L/.R, _l/_r. The words are
common practice, no source.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from .segments import SEGMENTS

TOKEN = re.compile(r"[A-Z]+(?![a-z])|[A-Z]?[a-z]+|\d+")
DEFORMING = "DEF-"
GENERATED = re.compile(r"^(DEF|ORG|MCH)-")
SIDE = {"l": "left", "left": "left", "r": "right", "right": "right"}

AIDS = """ik fk ctrl ctl control controller mch pole target tweak twist roll end nub site helper master parent pivot
    widget socket heel toe toes ball finger thumb index middle ring pinky forehead"""
"""Words of bones that carry no segment of their own: controls, ends, and what a segment already counts."""
CREATURE = "tail wing hoof paw hock horn fin snout foreleg forefoot front fore hind rear"
DRESS = "pony hair coat braid"
"""Words that make a tail no animal's."""
EMPTY = "def hind rear jnt jt joint bone bn"
"""Words that say nothing of the segment."""
FRONT = ("front", "fore")

MIDDLE_NAMES = {
    "head": "head skull neck",
    "trunk": "hips hip pelvis spine chest torso body trunk back lowerback lowback upperback abdomen waist belly "
    "upperchest lowerbody upperbody thorax",
}
SIDED = {
    "upper_arm": "upperarm uparm arm humerus shldr foreleg frontleg frontthigh frontupleg frontupperleg",
    "forearm": "forearm lowerarm lowarm frontshin frontlowerleg frontshank frontcalf",
    "hand": "hand frontfoot forefoot frontpaw frontcannon fronthoof",
    "thigh": "thigh upleg upperleg femur",
    "shank": "shank shin calf lowerleg lowleg tibia",
    "foot": "foot cannon paw hoof",
}
BY_JOINT = {"upper_arm": "shoulder", "forearm": "elbow", "hand": "wrist", "thigh": "hip", "shank": "knee",
            "foot": "ankle"}  # fmt: skip


def _any_of(words: str, tokens: Iterable[str]) -> bool:
    return not set(words.split()).isdisjoint(tokens)


def _by_word(words: Mapping[str, str]) -> dict[str, str]:
    return {word: kind for kind, text in words.items() for word in text.split()}


MIDDLE_WORDS, SIDED_WORDS, JOINT_WORDS = _by_word(MIDDLE_NAMES), _by_word(SIDED), _by_word(BY_JOINT)


@dataclass(frozen=True, slots=True)
class Naming:
    """What names tell.

    segments  bone → segment, parents first; several bones of one segment are one chain
    creature  whether words of an animal are among them: human tables of masses do not hold
    """

    segments: dict[str, str]
    creature: bool

    @property
    def is_whole(self) -> bool:
        """Whether every segment of a human body has a bone."""
        return set(self.segments.values()) == set(SEGMENTS)


@dataclass(frozen=True, slots=True)
class _Word:
    """A bone's name taken apart: its side, and its words joined."""

    side: str
    text: str


def segments_of(parents: Mapping[str, str | None], *, deforming: Collection[str] | None = None) -> Naming:
    """Tell segments by name, from bone → parent of all bones of a skeleton.

    deforming: the bones that may have a segment; None for all. Of a generated rig its DEF- bones are taken alone.

    >>> segments_of({"Hips": None, "LeftUpLeg": "Hips", "LeftLeg": "LeftUpLeg"}).segments
    {'Hips': 'trunk', 'LeftUpLeg': 'thigh_left', 'LeftLeg': 'shank_left'}
    """
    able = [bone for bone in parents if deforming is None or bone in deforming]
    generated = [bone for bone in able if bone.startswith(DEFORMING)]
    words = {bone: _word(bone) for bone in generated or able}
    taken = {bone: word for bone, word in words.items() if word is not None}
    depth = {bone: len(list(_above(bone, parents))) for bone in taken}
    by_joint = _is_by_joint(taken.values())
    upper_leg = any(SIDED_WORDS.get(word.text) == "thigh" for word in taken.values() if word.side)
    found: dict[str, str] = {}
    for bone in sorted(taken, key=lambda bone: depth[bone]):
        kind = _kind(taken[bone], by_joint=by_joint, upper_leg=upper_leg)
        if kind:
            found[bone] = f"{kind}_{taken[bone].side}" if taken[bone].side else kind
    found = _chains(found, parents)
    if "head" not in found.values():
        found = _above_shoulders(found, parents)
    return Naming(found, any(_is_creatures(_tokens(bone)) for bone in words))


def _tokens(bone: str) -> list[str]:
    return [token.lower() for token in TOKEN.findall(bone.rpartition(":")[2])]


def _is_creatures(tokens: list[str]) -> bool:
    forearm = "fore" in tokens and "arm" in tokens
    return _any_of(CREATURE, tokens) and not forearm and not _any_of(DRESS, tokens)


def _word(bone: str) -> _Word | None:
    """Take a name apart; None for one that carries no segment."""
    tokens = [token for token in _tokens(bone) if not token.isdigit()]
    if _any_of(AIDS, tokens):
        return None
    for side in ("left", "right"):
        if tokens and tokens[0].startswith(side) and tokens[0] != side:
            tokens = [side, tokens[0].removeprefix(side), *tokens[1:]]
    sides = {SIDE[token] for token in tokens if token in SIDE}
    words = [token for token in tokens if token not in SIDE and token not in EMPTY.split()]
    words = ["front" if word in FRONT else word for word in words]
    if "front" in words:
        words = ["front", *(word for word in words if word != "front")]
    if words == ["front", "arm"]:
        words = ["forearm"]
    return _Word("".join(sides) if len(sides) == 1 else "", "".join(words))


def _is_by_joint(words: Collection[_Word]) -> bool:
    """Say whether bones are named by the joint they begin at."""
    texts = {word.text for word in words if word.side}
    return bool(texts & {"elbow", "knee"}) and not texts & {"forearm", "lowerarm", "thigh", "shin", "calf", "upleg"}


def _kind(word: _Word, *, by_joint: bool, upper_leg: bool) -> str | None:
    if not word.side:
        return _longest(word.text, MIDDLE_WORDS)
    if by_joint and word.text in JOINT_WORDS:
        return JOINT_WORDS[word.text]
    if word.text == "leg":
        return "shank" if upper_leg else "thigh"
    return _longest(word.text, SIDED_WORDS)


def _longest(text: str, words: Mapping[str, str]) -> str | None:
    """Look a name up, less and less of its beginning, so that a character's name before it does not matter."""
    if text in words:
        return words[text]
    ends = sorted((word for word in words if text.endswith(word) and len(word) > 3), key=len)
    return words[ends[-1]] if ends else None


def _above(bone: str, parents: Mapping[str, str | None]) -> Iterator[str]:
    """Yield a bone's ancestors, the nearest first."""
    above = parents.get(bone)
    seen = {bone}
    while above is not None and above not in seen:
        seen.add(above)
        yield above
        above = parents.get(above)


def _bare(bone: str) -> str:
    return GENERATED.sub("", bone)


def _chains(found: Mapping[str, str], parents: Mapping[str, str | None]) -> dict[str, str]:
    """Keep of each segment one chain: a bone that is not under the chain's last is beside it, and left out."""
    last: dict[str, str] = {}
    kept: dict[str, str] = {}
    for bone, segment in found.items():
        above = {_bare(name) for name in _above(bone, parents)}
        if segment not in last or _bare(last[segment]) in above:
            kept[bone] = segment
            last[segment] = bone
    return kept


def _above_shoulders(found: Mapping[str, str], parents: Mapping[str, str | None]) -> dict[str, str]:
    """Take the bones of the back beyond where the arms begin for neck and head, where none is named so."""
    arm = next((bone for bone, segment in found.items() if segment.startswith("upper_arm")), None)
    back = [bone for bone, segment in found.items() if segment == "trunk"]
    if arm is None or not back:
        return dict(found)
    names = [_bare(bone) for bone in back]
    shoulders = next((_bare(name) for name in _above(arm, parents) if _bare(name) in names), None)
    beyond = set(back[names.index(shoulders) + 1 :]) if shoulders else set()
    return {bone: "head" if bone in beyond else segment for bone, segment in found.items()}
