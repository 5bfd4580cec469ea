"""Whether certainty means what it says: of the jumps told at a probability, the share that are jumps."""

from collections.abc import Iterator

import numpy as np

from tests.truth import drawn, grounded, motions, still_life
from tests.truth.answer import Motion

from .table import lines, say
from .tally import found_on, match

TRIES = 40
BINS = (0.0, 0.2, 0.4, 0.6, 0.8, 0.95, 0.99, 1.0001)


def mixed(tries: int, kinds: str = "") -> Iterator[Motion]:
    """Yield drawn jumps, closed forms and tracks that hold no jump; runs with low flights are left out, as neither."""
    others = [kind for kind in still_life.STILL if kind not in still_life.UNPUSHED and "flights" not in kind]
    sources = [(drawn.make, drawn.FAMILIES), (motions.make, tuple(motions.JUMPS))]
    sources += [(grounded.make, tuple(grounded.KINDS)), (still_life.make, tuple(others))]
    for make, names in sources:
        for name in names:
            if kinds in name:
                say(f"{name} …")
                yield from (make(name, seed) for seed in range(tries))


def told(motion: Motion) -> list[tuple[float, bool]]:
    """Return the probability of each jump told on a track, and whether it is one. Cut-off jumps are left out."""
    if motion.partial:
        return []
    found = found_on(motion.track)
    true = {id(phases) for truth in motion.truth if (phases := match(truth, found)) is not None}
    return [(phases.certainty, id(phases) in true) for phases in found]


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print the table of bins, and the mean squared error of the probability."""
    pairs = [pair for motion in mixed(tries or TRIES, kinds) for pair in told(motion)]
    stated, true = np.array([pair[0] for pair in pairs]), np.array([pair[1] for pair in pairs], dtype=bool)
    rows = []
    for low, high in zip(BINS, BINS[1:], strict=False):
        inside = (stated >= low) & (stated < high)
        if inside.any():
            label = f"{low:g} to {min(high, 1.0):g}"
            rows.append([label, str(inside.sum()), f"{stated[inside].mean():.3f}", f"{true[inside].mean():.3f}"])
    print("\n".join(lines(("stated", "told", "mean stated", "are jumps"), rows)))
    score = float(np.mean((stated - true) ** 2)) if len(pairs) else 0.0
    print(f"mean squared error {score:.4f}")
    return {"rows": rows, "score": score}
