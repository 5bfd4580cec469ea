"""Motion that never leaves the ground: tracks with a jump called sure or likely, and with a doubtful one."""

from collections.abc import Callable

from leapwright.analysis.certainty import Certainty, certainty_of

from tests.truth import still_life
from tests.truth.answer import Motion
from tests.truth.grounded import NAMES, make

from .table import lines, say
from .tally import found_on

TRIES = 100
MAKERS: dict[str, tuple[Callable[[str, int], Motion], str]] = {
    **{kind: (make, kind) for kind in NAMES},
    **{f"other {kind}": (still_life.make, kind) for kind in (*still_life.STILL, *still_life.FALLS)},
}
"""By name of the row; the others come from the closed forms of tests/truth/still_life.py."""


def told(motion: Motion) -> Certainty | None:
    """Return the strongest word used of anything on this track; a fall or a slide is no jump without a crouch."""
    found = found_on(motion.track)
    if motion.kind in still_life.UNPUSHED:
        found = tuple(phases for phases in found if phases.crouch is not None)
    words = [certainty_of(phases.certainty) for phases in found]
    return max(words, key=list(Certainty).index, default=None)


def count(name: str, tries: int) -> dict[str, list[int]]:
    """Return the seeds with a jump called sure or likely, and those with a doubtful one only."""
    build, kind = MAKERS[name]
    seeds: dict[str, list[int]] = {"false": [], "doubtful": []}
    for seed in range(tries):
        word = told(build(kind, seed))
        if word is not None:
            seeds["doubtful" if word is Certainty.DOUBTFUL else "false"].append(seed)
    return seeds


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print a row a kind, tracks in a hundred."""
    tries = tries or TRIES
    counted = {}
    for kind in MAKERS:
        if kinds in kind:
            say(f"{kind} …")
            counted[kind] = count(kind, tries)
    rows = [
        [
            kind,
            str(tries),
            *(f"{100 * len(one[word]) / tries:.1f}" for word in one),
            " ".join(map(str, one["false"][:8])),
        ]
        for kind, one in counted.items()
    ]
    sums = [sum(len(one[word]) for one in counted.values()) for word in ("false", "doubtful")]
    whole = max(tries * len(counted), 1)
    rows.append(["all", str(whole), *(f"{100 * sum_ / whole:.2f}" for sum_ in sums), ""])
    print("\n".join(lines(("kind", "tracks", "sure or likely %", "doubtful %", "first seeds"), rows)))
    return {kind: {"tries": tries, **one} for kind, one in counted.items()}
