from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from record.backup import Unfit
from record.models import Event
from record.restore import restore
from record.verify import flaws


class Command(BaseCommand):
    help = ("Puts a backup back, into SQLite or PostgreSQL, whichever it was made from. Stop the server first. Phones send "
            "again what the backup lacks.")

    def add_arguments(self, parser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--replace", action="store_true", help="move the record that is there aside first")

    def handle(self, *args, file: Path, replace: bool, **options) -> None:
        try:
            aside = restore(file.resolve(), replace=replace)
        except Unfit as why:
            raise CommandError(str(why)) from None
        found = [str(flaw) for flaw in flaws()]
        if found:
            raise CommandError("The backup was put back, but not all of it is as it was stored:\n" + "\n".join(found))
        self.stdout.write(f"{Event.objects.count()} events put back and verified. Phones send everything again at their next sync.")
        if aside:
            self.stdout.write(f"What was here before is kept: {aside}")
