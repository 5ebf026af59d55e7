from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from shop.models import Person
from sync.files import Refused, take


class Command(BaseCommand):
    help = "Takes in a file of entries that a phone exported, on the word of an owner, or of the one who wrote them."

    def add_arguments(self, parser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--as", dest="login", required=True, metavar="NAME", help="the log-in name of whoever brings it")

    def handle(self, *args, file: Path, login: str, **options) -> None:
        person = Person.objects.select_related("shop").filter(username=login, is_active=True).exclude(shop=None).first()
        if person is None:
            raise CommandError(f"Nobody logs in as “{login}” here.")
        try:
            self.stdout.write(take(file.read_bytes(), person).sentence)
        except OSError as why:
            raise CommandError(f"{file} cannot be read: {why.strerror}.") from None
        except Refused as why:
            raise CommandError(str(why)) from None
