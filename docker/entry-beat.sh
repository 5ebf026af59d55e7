#!/bin/sh
# Beat: the periodic sweep that finds changed builds whose message was lost. Run exactly one.
set -eu
cd "$(dirname "$0")/../backend"
exec celery -A config.celery:app beat --loglevel INFO --pidfile= --schedule "${HALFTHOU_DATA:-/tmp}/celerybeat-schedule"
