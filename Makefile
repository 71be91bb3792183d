# Every command sets up what it needs first; the second time that takes no time.
#   make site    build the demo shop into site_demo/
#   make serve   preview it, rebuilt as you write
#   make check   check the demo shop's procedures, build nothing
#   make test    run every test, in Python and in a browser
#   make bench   time the first answer of a calculator, ours against stock PyScript, with all and with two, and one more; a tap in a job
#   make bench-large  time the build of thousands of pages, ours against stock MkDocs with Material
#   make torture kill 300 browsers in the middle of running jobs, check 20,000 texts with slips of the pen; ROUNDS, PAGES and SEED change that
#   make pictures  take the pictures in docs/pictures anew
#   make lock    write the two locks anew

NEWEST_FIRST := python3.14 python3.13 python3.12 python3.11 python3 python
IS_FIT := import sys; sys.exit(sys.version_info < (3, 11))
PYTHON ?= $(shell for p in $(NEWEST_FIRST); do $$p -c '$(IS_FIT)' 2>/dev/null && echo $$p && break; done)
BIN := .venv/bin
export NO_MKDOCS_2_WARNING := 1
unexport PYTHONDONTWRITEBYTECODE  # the tests start Python hundreds of times
PACKAGES := .venv/packages-installed
NPM_PACKAGES := node_modules/packages-installed

.PHONY: help setup site serve check test bench bench-large torture pictures lock clean

help:
	@sed -n 's/^#  *make/make/p' Makefile

setup: $(PACKAGES) $(NPM_PACKAGES)

$(PACKAGES): requirements.lock pyproject.toml
	@test -n '$(PYTHON)' || { echo 'Python 3.11 or newer is needed.'; exit 1; }
	test -x $(BIN)/python || $(PYTHON) -m venv .venv
	$(BIN)/python -m pip install -q --disable-pip-version-check --require-hashes -r requirements.lock
	$(BIN)/python -m pip install -q --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@

$(NPM_PACKAGES): package-lock.json package.json .npmrc $(PACKAGES)
	$(BIN)/python -m hooks.runtime
	@touch $@

site: setup
	$(BIN)/python -m mkdocs build
	@echo 'The demo shop is in site_demo/. To look at it:'
	@echo '    $(BIN)/python -m http.server -d site_demo 8000'
	@echo 'and open http://localhost:8000 in a browser.'

serve: setup
	$(BIN)/python -m mkdocs serve

check: setup
	$(BIN)/python -m hooks check

test: setup
	$(BIN)/python tests/browser/chromium.py
	$(BIN)/python -m pytest -n 2 --dist loadfile --no-loadscope-reorder

bench: setup
	$(BIN)/python tests/browser/chromium.py
	$(BIN)/python -m tests.bench.first_answer
	$(BIN)/python -m tests.bench.recalculation
	$(BIN)/python -m tests.bench.start_up
	$(BIN)/python -m tests.bench.tap

bench-large: setup
	$(BIN)/python -m tests.bench.large

torture: setup
	$(BIN)/python tests/browser/chromium.py
	$(BIN)/python -m tests.torture.jobs $(or $(ROUNDS),300) $(SEED)
	$(BIN)/python -m tests.torture.pages $(or $(PAGES),20000) $(SEED)

pictures: setup
	$(BIN)/python tests/browser/chromium.py
	$(BIN)/python -m tests.pictures

lock: $(PACKAGES)
	$(BIN)/python -m venv .cache/lock
	.cache/lock/bin/python -m pip install -q pip-tools
	PIP_FIND_LINKS= PIP_CONFIG_FILE=/dev/null .cache/lock/bin/pip-compile -q --upgrade -o requirements.lock pyproject.toml
	$(BIN)/python -m hooks.runtime install --package-lock-only

clean:
	rm -rf site_demo .cache build *.egg-info
