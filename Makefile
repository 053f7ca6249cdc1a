# Every target sets up what it needs, once: a .venv of its own with the locked packages.
# Another Python, beside it: make PYTHON=/path/to/python3.12 VENV=build/python3.12 …

PYTHON ?= python3
VENV ?= .venv
COMPRESS ?= --compress
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip -qq --disable-pip-version-check --no-input
MAKEFLAGS += --no-print-directory

.DEFAULT_GOAL := help
.PHONY: help run test docs-cli quick core lint types check fix words guide pictures tags bench lock pyodide phone dist

help:  ## list these targets
	@awk -F ':.*## ' '/^[a-z-]+:.*## / { printf "make %-8s %s\n", $$1, $$2 }' Makefile

run: $(VENV)/run.stamp  ## open the demo book in a browser
	@$(BIN)/evenstand serve --demo

test: $(VENV)/dev.stamp pyodide  ## run all tests, one process for each core
	@$(TESTS) --durations 20

# A file of tests stays in one process, so that what its fixtures build is built once.
TESTS = $(BIN)/python -m pytest --quiet --numprocesses auto --dist loadscope --no-loadscope-reorder

quick: $(VENV)/dev.stamp  ## lint, types, and the tests of the rooms that changed since the last push
	@$(MAKE) -s lint types
	@$(TESTS) -m "not simulated" $$($(BIN)/python tools/changed.py)

core: $(VENV)/dev.stamp
	@$(TESTS) -m "not simulated" $(CORE:%=src/evenstand/%) $(CORE:%=tests/%)

# What must come out the same on every Python.
CORE = engine tasks book

lint:
	@$(BIN)/ruff format --quiet --check --output-format concise . || \
	  { echo "Not in format: run make fix."; exit 1; }
	@$(BIN)/ruff check --quiet .

types:
	@$(BIN)/mypy --strict src

check: $(VENV)/dev.stamp  ## format, lint, types, imports, documents
	@$(MAKE) -s lint types
	@said="$$($(BIN)/lint-imports)" && echo "Imports keep to the layers." || { echo "$$said"; exit 1; }
	@if command -v node >/dev/null && command -v npm >/dev/null; then \
	  $(MAKE) -s node_modules/.package-lock.json && node_modules/.bin/tsc -p phone && \
	  node_modules/.bin/biome lint --error-on-warnings --log-level=error && \
	  echo "The phone's scripts are typed and linted."; \
	  else echo "Node.js not found: the phone's scripts were not checked."; fi
	@$(BIN)/python -m pytest --quiet tests/docs

fix: $(VENV)/dev.stamp  ## put the code in format and mend what can be mended
	@$(BIN)/ruff check --quiet --fix .
	@$(BIN)/ruff format --quiet .

docs-cli: $(VENV)/dev.stamp  ## write the page of the commands, from its prose and what they print
	@$(BIN)/python tools/cli_page.py

words: $(VENV)/dev.stamp  ## gather the sentences for translators
	@$(BIN)/python tools/words.py

guide: $(VENV)/dev.stamp  ## build the user's guide into build/guide
	@NO_MKDOCS_2_WARNING=1 $(BIN)/mkdocs build --quiet --strict
	@echo "The guide is built: open build/guide/index.html, or, to search in it too, its folder from a server:"
	@echo "$(BIN)/python -m http.server --bind 127.0.0.1 --directory build/guide"

pictures: $(VENV)/dev.stamp  ## take the guide's pictures anew, from the demo's pages in Chromium
	@$(BIN)/python tools/guide_pictures.py

tags: $(VENV)/dev.stamp  ## draw the seed tags of the demo book anew, in Chromium
	@$(BIN)/python tools/tag_pictures.py

bench: $(VENV)/dev.stamp  ## measure against peers, in one run, and try long to break it
	@for file in benchmarks/*.py; do $(BIN)/python "$$file" || exit 1; done
	@TIMES=20 $(BIN)/python -m pytest --quiet $(FAULTS)

# Kills, full disks, slow connections, damaged files, whatever may be typed or sent.
FAULTS = tests/faults tests/fuzz tests/book/storage/test_crash.py tests/book/log/test_merge.py \
  tests/web/api/test_schema.py

lock: $(VENV)/dev.stamp  ## lock the dependencies anew (UPGRADE=--upgrade takes newer ones)
	@echo "Locking the dependencies…"
	@$(PIP) install uv
	@$(LOCK) --python-version 3.11 --group dev --group build pyproject.toml -o requirements/dev.txt
	@$(LOCK) --python-version 3.11 --group build -c requirements/dev.txt pyproject.toml \
	  -o requirements/run.txt
	@$(LOCK) --python-version 3.14 --group pyodide -c requirements/dev.txt \
	  -o requirements/pyodide.txt
	@$(LOCK) --python-version 3.14 --group phone -c requirements/dev.txt \
	  -o requirements/phone.txt
	@if command -v npm >/dev/null; then npm install --silent --package-lock-only; fi

LOCK = $(BIN)/uv pip compile --quiet --universal --generate-hashes --no-annotate \
  --custom-compile-command "make lock" $(UPGRADE)

# The newest stamp wins: dev holds all of run, at the same versions.
$(VENV)/run.stamp: requirements/run.txt pyproject.toml | $(VENV)/bin/python
	@echo "Installing the locked packages into $(VENV) (once, under a minute)…"
	@$(PIP) install --require-hashes -r requirements/run.txt
	@$(PIP) install --no-build-isolation --no-deps --editable .
	@touch $@

$(VENV)/dev.stamp: requirements/dev.txt pyproject.toml | $(VENV)/bin/python
	@echo "Installing the locked packages for development into $(VENV) (once, a minute or two)…"
	@$(PIP) install --require-hashes -r requirements/dev.txt
	@$(PIP) install --no-build-isolation --no-deps --editable .
	@touch $@ $(VENV)/run.stamp

$(VENV)/bin/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null || \
	  { echo "Evenstand needs Python 3.11 or newer, and $(PYTHON) is not: name one, make PYTHON=/path/to/python3.11"; exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' 2>/dev/null || \
	  { echo "$(PYTHON) cannot make a virtual environment: install its venv module (on Debian and Ubuntu the package python3-venv)."; exit 1; }
	@$(PYTHON) -m venv --clear $(VENV)

# Pyodide from npm, and beside it the few packages that the tests need inside. One of them, MarkupSafe,
# has no wheel for it: that of Linux is taken, whose compiled part is passed over there for its plain one.
pyodide:
	@if command -v node >/dev/null && command -v npm >/dev/null; then \
	  $(MAKE) -s node_modules/.package-lock.json build/pyodide/stamp; fi

phone: $(VENV)/dev.stamp node_modules/.package-lock.json build/phone/stamp  ## build what phones load to go without a network
	@echo "Building the phone's part (a minute)…"
	@node tools/phone/bundle.mjs build/phone/site src/evenstand/web/offline $(COMPRESS)

dist: phone  ## build the wheel, with what phones load in it
	@rm -rf dist
	@$(BIN)/python -m hatchling build --target wheel

node_modules/.package-lock.json: package-lock.json
	@echo "Installing Pyodide into node_modules (once, some seconds)…"
	@npm ci --loglevel error --no-audit --no-fund >/dev/null
	@touch $@

build/pyodide/stamp build/phone/stamp: build/%/stamp: requirements/%.txt | $(VENV)/dev.stamp
	@echo "Installing the locked packages for Pyodide into build (once, some seconds)…"
	@rm -rf build/$*
	@$(PIP) install --require-hashes --no-deps --no-compile --only-binary :all: --target build/$*/site \
	  --python-version 3.14 --implementation cp --abi cp314 \
	  --platform pyemscripten_2026_0_wasm32 --platform manylinux_2_17_x86_64 -r requirements/$*.txt
	@touch $@
