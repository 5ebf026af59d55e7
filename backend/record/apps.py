from django.apps import AppConfig


class RecordConfig(AppConfig):
    name = "record"

    def ready(self) -> None:
        from . import checks  # noqa: F401  registers the check of the SQLite journal
