# The two commands a stranger needs: make demo, make test. Both make their own virtual environment.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.installed
DEMO := cases/larch_ridge.toml

.PHONY: demo test test-slow lint bench docs figures page notebooks clean

$(STAMP): pyproject.toml setup.py constraints.txt
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --upgrade pip
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e ".[dev]"
	touch $(STAMP)

demo: $(STAMP)
	$(BIN)/tautlay solve $(DEMO) --load lying --output results/larch_ridge

test: $(STAMP)
	$(BIN)/python -m pytest -n auto --dist loadfile

test-slow: $(STAMP)
	$(BIN)/python -m pytest -n auto --dist worksteal -m slow

lint: $(STAMP)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(STAMP)
	$(BIN)/python benchmarks/run.py

docs: $(STAMP)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e ".[docs]"
	rm -rf docs/_build docs/examples && mkdir -p docs/_build/work
	$(BIN)/python -m sphinx -W --keep-going -q -b html docs docs/_build/html
	$(BIN)/python docs/check_links.py docs/_build/html
	$(BIN)/python docs/check_reference.py docs/_build/html/reference
	@echo "Open docs/_build/html/index.html"

figures:
	$(PYTHON) -m tests.architecture.figures

page:
	cd viewer/page && npm ci --silent --ignore-scripts && npm run --silent check && npm run --silent build

notebooks: $(STAMP)
	$(BIN)/python examples/run.py

clean:
	rm -rf $(VENV) build dist *.egg-info results
