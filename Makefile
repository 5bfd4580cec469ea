# Leapwright. Everything is a word of make; `make` alone lists them.

SHELL := /bin/sh
.DEFAULT_GOAL := help
.PHONY: help setup hosts data demo test test-others test-analysis lint extension link pictures attack retimings bench mutate formulas

# Blender hosts to test, or to build the demo with, of 4.2 4.5 5.0 5.2; empty: what is there.
HOSTS ?=

# The first Python that truly runs: a name on the path may be a shim that only fails.
PYTHON_NOW = $(shell for python in "$(PYTHON)" python3.11 python3.13 python3 python; do \
	"$$python" -c 'import sys; sys.exit(sys.version_info < (3, 9))' 2>/dev/null && echo "$$python" && break; done)
VENV := .venv/bin/python

help:  ## list these words
	@awk -F ':.*## ' '/^[a-z-]+:.*## / {printf "  make %-15s %s\n", $$1, $$2}' $(MAKEFILE_LIST)

setup:  ## make .venv with Blender as a Python package and the command .venv/bin/leapwright
	@python="$(PYTHON_NOW)"; test -n "$$python" || { echo "No working Python 3 found"; exit 1; }; \
	"$$python" .make/environment.py .venv

data: setup  ## fetch the recorded motions that the truth tests read
	@$(VENV) .make/motions.py

hosts: setup  ## set up every other Blender release, under build/hosts
	@$(VENV) .make/environment.py

demo: setup  ## build the Tern Quay shots, audit them, write build/demo/report/index.html
	@$(VENV) .make/demo.py $(HOSTS)
	@echo "Auditing them"
	@.venv/bin/leapwright audit build/demo/shots --report build/demo/report --json build/demo/audit.json --force

test: setup lint  ## lint, then run every test; HOSTS="4.2 4.5 5.0 5.2" runs the whole matrix
	-@$(VENV) .make/motions.py
	@$(VENV) .make/test.py $(HOSTS)

test-others: setup  ## run the add-on's tests, from the built zip, in every host but that of .venv
	@$(VENV) .make/test.py --others

test-analysis: setup  ## run the tests that need no Blender
	-@$(VENV) .make/motions.py
	@$(VENV) -m pytest -q tests/analysis tests/truth tests/test_house.py

lint: setup  ## check style with ruff, and types with mypy
	@echo "Linting"
	@$(VENV) -m ruff check .
	@$(VENV) .make/check_types.py

extension: setup  ## build dist/leapwright-VERSION.zip, one for every system
	@$(VENV) .make/extension.py

link: setup  ## put this checkout, live, into a Blender: BLENDER=X.Y or EXTENSIONS=/path/to/extensions
	@$(VENV) .make/link.py --blender "$(BLENDER)" --extensions "$(EXTENSIONS)"

pictures: setup  ## take the manual's pictures in a Blender with windows: WINDOWED=/path/to/blender
	@PYTHONPATH=. $(VENV) .make/pictures.py "$(WINDOWED)" $(SESSIONS)

attack: setup  ## audit seeded scenes put together as nobody would: SCENES=1000 from seed FIRST=0 on (minutes)
	@$(VENV) -m tests.addon.attack scenes $(or $(SCENES),1000) $(or $(FIRST),0)

retimings: setup  ## retime seeded shots in four ways each, and undo it: SHOTS=300 from seed FIRST=0 on (half an hour)
	@$(VENV) -m tests.addon.attack retimings $(or $(SHOTS),300) $(or $(FIRST),0)

bench: setup  ## run the benchmarks; they print ratios
	@$(VENV) -m tests.bench

mutate: setup  ## double and halve each number that finds jumps; list those that no test misses (hours)
	@$(VENV) .make/mutate.py $(MUTATE)

formulas: setup  ## break each formula of .make/formulas.toml; list those that no test of their room misses (most of an hour)
	@$(VENV) .make/formulas.py $(FORMULAS)
