from django.apps import AppConfig
from django.db.models.signals import post_migrate


class RecordConfig(AppConfig):
    name = "record"

    def ready(self) -> None:
        from . import checks  # noqa: F401  registers the check of the SQLite journal

        post_migrate.connect(_guard_up, sender=self, dispatch_uid="guard-after-migrating")


def _guard_up(using: str, plan: list | None = None, **_) -> None:
    """SQLite makes a changed table anew and forgets its triggers, so they are put up after every migration that did something."""
    from django.db import connections

    from . import guard

    if plan and "record_event" in connections[using].introspection.table_names():
        guard.install(connections[using])
