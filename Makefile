# Halfthou. `make` alone lists what there is to do.
PYTHON ?= python3
VENV := .venv/bin
SETUP := $(PYTHON) scripts/setup.py
# Written in the formatter's form; the rest is laid out by hand, tables above all.
FORMED := scripts tests/services tests/scripts tests/bench tests/conftest.py

.DEFAULT_GOAL := help
.PHONY: faults kills mutants coverage bench-replication backup restore help run run-lan test test-kernel check lint types bench goals pictures format demo-reset

help: ## list what there is to do
	@echo "Halfthou: a bench companion for people who assemble engines. Targets:"
	@awk -F ':.*## ' '/^[a-z-]+:.*## / {printf "  make %-12s %s\n", $$1, $$2}' Makefile
	@echo "PORT=8123 make run serves on another port; make test T=\"tests/sync -k fork\" runs a part."

run: ## set up what is missing and serve the demo shop on port 8000
	@$(SETUP) run
	@exec $(VENV)/python scripts/serve.py

run-lan: ## the same over https for phones on the network, on port 8443
	@$(SETUP) run
	@exec $(VENV)/python scripts/serve.py lan

test: ## set up and run everything, browser tests included
	@$(SETUP) test
	@$(VENV)/python scripts/test.py $(T)

test-kernel: ## the kernel's tests: seconds, no Django, no services
	@$(SETUP) lint
	@$(VENV)/python -m pytest -q -p no:django -o DJANGO_SETTINGS_MODULE= tests/kernel tests/test_import_law.py

faults: ## play N=2000 schedules of faults against phones and server, on SQLite and PostgreSQL; S= first seed
	@$(SETUP) test
	@PYTHONPATH=backend:. $(VENV)/python -m tests.faults $(or $(N),2000) $(or $(S),1)

kills: ## kill Chromium N=200 times while readings are entered and sent, then server, worker, Redis and PostgreSQL
	@$(SETUP) test
	@KILLS=$(or $(N),200) $(VENV)/python scripts/test.py -q -s tests/browser/test_killed.py tests/faults/test_real_kills.py

coverage: ## branch coverage of sync, record and permissions; fails below 100 %
	@$(SETUP) test
	@$(VENV)/python scripts/coverage_of.py
	@$(VENV)/python scripts/frontend_task.py branches

mutants: ## change sync, record and permissions in small ways and see that the tests notice; M= how many, all when left out
	@$(SETUP) test
	@PYTHONPATH=backend:. $(VENV)/python -m tests.mutants $(M)
	@$(VENV)/python scripts/frontend_task.py mutants $(M)

bench-replication: ## the sync against a general-purpose document replication pair, fetched for this alone
	@$(SETUP) test
	@$(VENV)/python scripts/bench.py replication

backup: ## write the whole record into one file; F= where to
	@cd backend && ../$(VENV)/python manage.py backup $(if $(F),$(abspath $(F)))

restore: ## put back the backup F=, moving what is there aside; stop the server first
	$(if $(F),,$(error Say which backup to put back: make restore F=FILE))
	@cd backend && ../$(VENV)/python manage.py restore $(abspath $(F)) --replace

lint: ## spelling of the Python: ruff
	@$(SETUP) lint
	@$(VENV)/ruff check .
	@$(VENV)/ruff format --check $(FORMED)

types: ## mypy on the kernel and the backend, svelte-check on the front end
	@$(SETUP) test
	@$(VENV)/mypy backend
	@$(VENV)/python scripts/frontend_task.py check

check: lint types test ## all that CI runs

bench: ## run every benchmark; tables here, figures in build/<name>.json
	@$(SETUP) test
	@$(VENV)/python scripts/bench.py $(B)

goals: ## every benchmark, the sixteen goals at full size (an hour or more) and then their table; fails when one is missed
	@$(SETUP) test
	@$(VENV)/python scripts/all_goals.py

pictures: ## take the pictures of README and docs/guide afresh
	@$(SETUP) test
	@PYTHONPATH=backend:. $(VENV)/python -m tests.browser.pictures

format: ## put the Python in its usual form
	@$(SETUP) lint
	@$(VENV)/ruff check --fix-only --quiet .
	@$(VENV)/ruff format $(FORMED)

demo-reset: ## set aside what was recorded in the demo shop and begin it afresh
	@$(SETUP) venv
	@$(VENV)/python scripts/demo_reset.py
