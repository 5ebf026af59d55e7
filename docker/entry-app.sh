#!/bin/sh
# The application: brings the database up to date, gathers the static files, then serves.
set -eu
cd "$(dirname "$0")/../backend"
python manage.py migrate --noinput --verbosity 0
if [ "${HALFTHOU_COLLECTED:-0}" = 1 ]; then
    python manage.py collectstatic --noinput --verbosity 0
fi
exec gunicorn config.wsgi:application \
    --bind "${HALFTHOU_BIND:-0.0.0.0}:${PORT:-8000}" \
    --workers "${HALFTHOU_APP_WORKERS:-2}" --threads 4 --timeout 60 --graceful-timeout 5 \
    --worker-tmp-dir /dev/shm --no-control-socket --access-logfile - --error-logfile -
