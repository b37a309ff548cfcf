# Two commands: `make run` and `make test`. Both set up what they need from a clean clone.
PYTHON ?= python3
BIN := .venv/bin
STAMP := .venv/.ready

.PHONY: run test test-postgres check bench format lock clean

run: $(STAMP)
	$(BIN)/firstpitch demo
	$(BIN)/firstpitch-desk serve --demo

test: $(STAMP)
	$(BIN)/python -m pytest -n 2

test-postgres: $(STAMP)
	FIRSTPITCH_TEST_POSTGRES=1 $(BIN)/python -m pytest tests/unit/desk tests/browser

check: $(STAMP)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(STAMP)
	$(BIN)/python -m bench

format: $(STAMP)
	$(BIN)/ruff format .
	$(BIN)/ruff check --fix .

$(STAMP): requirements-dev.txt pyproject.toml
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements-dev.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e . \
	  || $(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps -e .
	touch $(STAMP)

# Needs `uv` on the PATH; the lists it writes hold versions and hashes, no addresses.
lock:
	uv pip compile pyproject.toml --universal --python-version 3.11 --generate-hashes --no-annotate --no-header -o requirements.txt
	uv pip compile pyproject.toml --group dev --universal --python-version 3.11 --generate-hashes --no-annotate --no-header -o requirements-dev.txt
	uv pip compile pyproject.toml --extra postgres --extra s3 --extra video --universal --python-version 3.11 --generate-hashes --no-annotate --no-header -o requirements-server.txt

clean:
	rm -rf .venv out
