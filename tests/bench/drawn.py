"""Jumps as animators draw them: found, how surely, contacts, whether ± holds, whether the fault is told."""

from leapwright.analysis.certainty import Certainty

from tests.truth.drawn import FAMILIES, TOLD, make

from .table import lines, say
from .tally import CONTACTS, Tally

TRIES = 100


def tally(family: str, tries: int, *, start: int = 0) -> Tally:
    """Audit this many seeds of a family."""
    result = Tally()
    for seed in range(start, start + tries):
        result.add(make(family, seed), code=TOLD.get(family))
    return result


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print a row a family."""
    tallies = {}
    for family in FAMILIES:
        if kinds in family:
            say(f"{family} …")
            tallies[family] = tally(family, tries or TRIES)
    print("contacts: frames off, median/95th percentile, and % of them within 1.96 stated errors")
    head = ("family", "jumps", "found", "high", "extra", *Certainty, *CONTACTS, "± takeoff", "± landing", "told")
    print("\n".join(lines(head, [row(family, one) for family, one in tallies.items()])))
    for family, one in tallies.items():
        if one.missed or one.untold:
            print(f"{family}: missed seeds {one.missed[:10]}, untold {one.untold[:10]}")
    return {family: figures(one) for family, one in tallies.items()}


def row(family: str, one: Tally) -> list[str]:
    """Return the cells of a family."""
    cells = [family, str(one.truths), _percent(one.found, one.truths), _percent(one.found_high, one.high)]
    cells += [str(one.extra), *(f"{100 * one.share(word):.0f} %" for word in Certainty)]
    for name in CONTACTS:
        pair = one.spread(name)
        cells.append("-" if pair is None else f"{pair[0]:.2f}/{pair[1]:.2f}")
    holds = [one.holds(name) for name in CONTACTS]
    cells += ["-" if share is None else f"{100 * share:.0f} %" for share in holds]
    return [*cells, _percent(one.told, one.asked)]


def figures(one: Tally) -> dict:
    """Return the same as numbers."""
    return {
        "jumps": one.truths,
        "found": one.found,
        "high": one.high,
        "found_high": one.found_high,
        "extra": one.extra,
        "words": {str(word): one.words[word] for word in Certainty},
        "asked": one.asked,
        "told": one.told,
        "contacts": {name: {"spread": one.spread(name), "holds": one.holds(name)} for name in CONTACTS},
        "missed": one.missed,
        "untold": one.untold,
    }


def _percent(part: int, whole: int) -> str:
    return f"{100 * part / whole:.0f} %" if whole else "-"
