#!/bin/sh
# The worker: folds builds that changed and writes their findings.
set -eu
cd "$(dirname "$0")/../backend"
exec celery -A config.celery:app worker --loglevel INFO --concurrency "${HALFTHOU_JOB_WORKERS:-2}"
