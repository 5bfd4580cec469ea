"""`python -m tests.bench [part …] [--tries N] [--json FILE]`: print the tables of these parts, or of all."""

import argparse
import importlib
import json
import pkgutil
import sys
import time
from pathlib import Path

import tests.bench


def parts() -> list[str]:
    """Modules beside this one that have `run(tries)`, by name, without importing them."""
    folder = Path(tests.bench.__file__).parent
    names = [module.name for module in pkgutil.iter_modules(tests.bench.__path__)]
    return [name for name in names if "\ndef run(" in (folder / f"{name}.py").read_text(encoding="utf-8")]


def main() -> int:
    """Run the parts in order of name; a part returns what goes into the JSON."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("part", nargs="*", help=f"one of {', '.join(parts())}; all by default")
    parser.add_argument("--tries", type=int, help="seeds per kind, where a part draws any")
    parser.add_argument("--kinds", default="", help="only kinds whose name holds this text")
    parser.add_argument("--json", type=Path, metavar="FILE", help="also write every figure here")
    chosen = parser.parse_args()
    if unknown := set(chosen.part) - set(parts()):
        parser.error(f"no such part: {', '.join(sorted(unknown))}")
    figures = {}
    for name in chosen.part or parts():
        print(f"\n== {name} ==", flush=True)
        start = time.perf_counter()
        run = importlib.import_module(f"tests.bench.{name}").run
        figures[name] = run(tries=chosen.tries, kinds=chosen.kinds)
        print(f"{name}: {time.perf_counter() - start:.0f} s", file=sys.stderr)
        if chosen.json:
            chosen.json.write_text(json.dumps(figures, indent=1), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
