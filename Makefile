# Lowport: help · run · test · check · words · bench
.DEFAULT_GOAL := help
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/.ready
READY_TEST := $(VENV)/.ready-test

.PHONY: help run test check words bench browser

help: ## say what can be done here
	@grep -E '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed 's/:.*## /\t/' | expand -t 10

run: $(READY) ## set up, load the demo crew once, serve on http://127.0.0.1:8000
	@$(BIN)/lowport database upgrade
	@$(BIN)/lowport demo --only-if-empty
	@$(BIN)/lowport serve

test: $(READY_TEST) browser ## run every test, the browser's included
	$(BIN)/pytest --numprocesses auto $(ARGS)

check: $(READY_TEST) ## lint, types of the pure packages, house rules
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lowport content check
	$(BIN)/lowport words --check
	$(BIN)/pytest -q tests/house

words: $(READY) ## collect the pages' texts, bring the Spanish up to date, say what has none
	@$(BIN)/lowport words

bench: $(READY_TEST) ## print ratios to a floor measured in the same run
	@for file in tests/bench/bench_*.py; do $(BIN)/python $$file || exit 1; done

browser:
	@sh tests/browser/find-chromium.sh
	@sh tests/browser/find-webkit.sh

$(READY): pyproject.toml constraints.txt
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Lowport needs Python 3.11 or newer; set PYTHON=… to one."; exit 1; }
	$(PYTHON) -m venv $(VENV)
	$(BIN)/pip install --quiet --disable-pip-version-check -c constraints.txt -e .
	@touch $@

$(READY_TEST): $(READY)
	$(BIN)/pip install --quiet --disable-pip-version-check -c constraints.txt -e '.[test]'
	@touch $@
