from datetime import datetime, UTC
from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand

from record import backup


class Command(BaseCommand):
    help = "Writes the whole record, people included, into one file, while the server runs. Keep it as you keep keys: it holds log-in hashes."

    def add_arguments(self, parser) -> None:
        parser.add_argument("file", nargs="?", type=Path, help="where to; left out: backups/ in the data folder, named by date and time")

    def handle(self, *args, file: Path | None, **options) -> None:
        name = f"halfthou-{datetime.now(UTC):%Y%m%d-%H%M%S}.zip"
        file = (file or Path(settings.DATA) / "backups" / name).resolve()
        rows = backup.write(file)
        backup.read_manifest(file)
        self.stdout.write(f"{file}: {rows['record_event']} events of {rows['record_build']} builds, read back and whole.")
