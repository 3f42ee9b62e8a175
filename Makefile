# bickern: the newcomer's two commands are `make demo` and `make test`.
PYTHON ?= python3
VENV := .venv
PY := $(VENV)/bin/python

WORKERS ?= 2
# files stay together as long as there is enough to do: a server or a database is started once for each
TESTS = -m pytest -n $(WORKERS) --dist worksteal

# each case may use two seconds of the whole machine, so nothing else runs beside
SHOP_SIZE = tests/geometry/pack/test_lengths_soak.py::test_shop_size_all

.PHONY: demo test browser check bench soak mutate docs clean

demo: $(VENV)/.runs
	@$(PY) tools/demo.py

test: browser
	$(PY) $(TESTS) -m "not soak"

check: browser
	$(VENV)/bin/ruff format --check src tests tools bench
	$(VENV)/bin/ruff check src tests tools bench
	$(VENV)/bin/mypy
	$(VENV)/bin/lint-imports
	$(VENV)/bin/mkdocs build --quiet --strict --site-dir site
	$(PY) $(TESTS) -m "not soak and not slow"

bench: browser
	@$(PY) -m compileall -q src
	@$(PY) bench/figures.py
	@$(PY) bench/rack.py
	@$(PY) bench/bars.py 200
	@$(PY) bench/sheets.py
	@$(PY) bench/strips.py
	@$(PY) bench/page.py

soak: browser
	BICKERN_SOAK=1 $(PY) $(TESTS) -m soak --deselect $(SHOP_SIZE)
	$(PY) -m pytest -m soak $(SHOP_SIZE)
	BICKERN_SOAK=1 $(PY) $(TESTS) -m "not soak" tests/laws

# An hour on two cores: changes every figure by 1 % and writes docs/mutation.md.
mutate: $(VENV)/.tests
	$(PY) tools/mutate.py --jobs $(WORKERS) --write

docs: $(VENV)/.tests
	$(PY) tools/pictures.py
	$(PY) tools/refusals.py
	$(PY) tools/precedence.py
	$(PY) tools/asking.py
	$(PY) tools/validation.py
	$(PY) tools/console.py
	$(VENV)/bin/mkdocs build --quiet --strict --site-dir site

# The virtual environment: what running needs, then what testing needs.
$(VENV)/.runs: pyproject.toml
	@sh tools/set_up.sh "$(PYTHON)" "$(VENV)" .
	@touch $@

$(VENV)/.tests: pyproject.toml
	@sh tools/set_up.sh "$(PYTHON)" "$(VENV)" ".[dev]"
	@touch $(VENV)/.runs $@

# What drives the page in its tests; asked each time, for it is no part of the virtual environment.
browser: $(VENV)/.tests
	@$(PY) tools/browser.py

clean:
	rm -rf $(VENV) out site .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache
