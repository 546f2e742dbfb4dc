# Faying. `make help` lists what there is.

PYTHON ?=
PORT ?=
T ?=
WORKERS ?= 2
MINUTES ?= 15
VENV := .venv
PY := $(VENV)/bin/python
PIP := $(PY) -m pip --disable-pip-version-check -qq
RUNTIME := $(VENV)/.runtime-installed
COMPUTING := chemistry callouts judgement remedies
DEVELOPMENT := $(VENV)/.development-installed

# numpy's own threads do not help small arrays and fight with the test processes.
export OMP_NUM_THREADS ?= 1
export OPENBLAS_NUM_THREADS ?= 1
export PYTHONUNBUFFERED = 1
ifneq ($(PORT),)
export FAYING_PORT = $(PORT)
endif

.DEFAULT_GOAL := help
.PHONY: help run test coverage lint format openapi readme bench faults scale soak seed validation lock clean sbom audit

help: ## list the targets
	@grep -hE '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/^([a-z-]+):.*## /\1\t/' | expand -t 14

run: $(RUNTIME) ## set up a local service and start it (PORT=8480)
	@$(PY) -m service setup
	@exec $(PY) -m service serve --greet

test: $(DEVELOPMENT) $(if $(T),,lint) ## linters, types and the whole suite (T=tests/callouts for a part)
	@$(PY) -m pytest $(or $(T),-n $(WORKERS))

coverage: $(DEVELOPMENT) ## branch coverage of the rooms that compute
	@$(PY) -m pytest -n $(WORKERS) $(COMPUTING:%=tests/%) tests/properties tests/published tests/validation \
	    $(COMPUTING:%=--cov=service/%) --cov-branch --cov-report=term

lint: $(DEVELOPMENT) ## ruff, formatting, mypy and the import contracts
	@$(VENV)/bin/ruff check .
	@$(VENV)/bin/ruff format --check .
	@$(VENV)/bin/mypy
	@$(VENV)/bin/lint-imports --no-logo

format: $(DEVELOPMENT) ## let ruff rewrite what it can
	@$(VENV)/bin/ruff check --fix .
	@$(VENV)/bin/ruff format .

openapi: $(RUNTIME) ## write openapi/openapi.json anew, and with it the client's types and calls
	@$(PY) -m service openapi --output openapi/openapi.json --client service/client/document

readme: $(DEVELOPMENT) ## write the generated parts of README.md anew
	@$(PY) .ci/readme.py

seed: $(RUNTIME) ## migrate the database and load seed_data/ into it
	@$(PY) -m service migrate
	@$(PY) -m service seed

validation: $(DEVELOPMENT) ## judge the documented cases and score the answers into build/validation/
	@$(PY) -m tests.validation.run

bench: $(DEVELOPMENT) ## measure, in one table beside the committed figures (ONLY=lookup, WRITE=1)
	@$(PY) -m tests.benchmarks.run $(if $(ONLY),--only $(ONLY)) $(if $(WRITE),--write)

faults: $(DEVELOPMENT) ## try every fault of the table in DEVELOPERS.md and write what came out into build/faults/
	@$(PY) -m tests.acceptance.faults.table

soak: $(DEVELOPMENT) ## load for MINUTES=15 at four fifths of what the server can do, then long runs of the fuzzed tests
	@$(PY) -m tests.soak.run --minutes $(MINUTES)
	@THOROUGH=1 $(PY) -m pytest -q tests/properties/test_parsers.py tests/contract/test_stateful.py \
	    tests/contract/test_document.py

sbom: $(DEVELOPMENT) ## list what the service is built on, with licences, into build/security/ (CycloneDX)
	@$(PY) -m tests.supply_chain.run

audit: | $(PY) ## ask for known vulnerabilities of what is locked (asks the network; not part of the suite)
	@test -x build/audit/bin/pip-audit || { $(PY) -m venv build/audit && \
	    build/audit/bin/python -m pip --disable-pip-version-check -qq install "pip-audit>=2.9"; }
	@$(PY) -m tests.supply_chain.audit build/audit/bin/pip-audit

scale: $(DEVELOPMENT) ## measure how a portfolio scales with workers (JOINTS=4000)
	@$(PY) -m tests.scale.run $(if $(JOINTS),--joints $(JOINTS))

lock: | $(PY) ## resolve requirements.lock anew (UPGRADE=--upgrade to move versions)
	@test -x build/lock/bin/python || $(PY) -m venv build/lock
	@build/lock/bin/python -m pip --disable-pip-version-check -qq install "pip-tools>=7.4"
	@build/lock/bin/python .ci/lock.py $(UPGRADE)

clean: ## remove the environment and what was built (the database in var/ stays)
	@rm -rf $(VENV) build .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
	@find . -name __pycache__ -type d -prune -exec rm -rf {} +

$(PY):
	@test -w . || { echo "faying: $(CURDIR) is read-only; copy it to a folder that you may write to" >&2; exit 1; }
	@python=$$(.ci/find-python "$(PYTHON)") && echo "making $(VENV) with $$python" && "$$python" -m venv $(VENV)

$(RUNTIME): requirements.lock pyproject.toml | $(PY)
	@echo "installing what the service needs"
	@sed '/^# --- development/,$$d' requirements.lock > $(VENV)/runtime.lock
	@$(PIP) install --require-hashes -r $(VENV)/runtime.lock
	@$(PIP) install --no-deps --no-build-isolation --editable .
	@touch $@

$(DEVELOPMENT): $(RUNTIME)
	@echo "installing what its tests need"
	@$(PIP) install --require-hashes -r requirements.lock
	@touch $@
