"""The Celery application. Jobs carry no rules: they claim a build, ask the kernel and store what it says."""
import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")

app = Celery("halfthou")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
