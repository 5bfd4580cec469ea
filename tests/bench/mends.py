"""Mends of seeded keyed jumps are followed to the letter: which findings are left, and which are new."""

import sys
from collections import Counter

from tests.analysis.mending.followed import followed

from .table import lines

JUMPS = 1000


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Follow each mend of so many jumps; print by way how many there are, and how many leave or bring a finding."""
    tried = [one for seed in range(tries or JUMPS) for one in followed(seed)]
    count, wrong = Counter(one.way.value for one in tried), Counter(one.way.value for one in tried if one.faults)
    for one in tried:
        if one.faults:
            print(f"seed {one.seed}, {one.way.value}: {'; '.join(one.faults)}", file=sys.stderr)
    rows = [[way, str(number), str(wrong[way])] for way, number in count.most_common()]
    print("\n".join(lines(("way", "followed", "leaves or brings a finding"), rows)))
    return {"followed": dict(count), "wrong": dict(wrong)}
