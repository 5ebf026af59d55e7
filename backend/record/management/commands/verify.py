from argparse import ArgumentTypeError

from django.core.management.base import BaseCommand, CommandError

from record.models import Event
from record.verify import flaws


def receipt(text: str) -> tuple[str, int, str]:
    build, _, rest = text.partition(":")
    seq, _, hash = rest.partition(":")
    if not (build and seq.isdecimal() and 16 <= len(hash) <= 64):
        raise ArgumentTypeError("a receipt is written BUILD:POSITION:HEAD, as on the sheet")
    return build, int(seq), hash.lower()


class Command(BaseCommand):
    help = ("Works out every seal and chain afresh and names the first event of each build and device that is not what was "
            "stored. Ends with status 1 when there is one. It changes nothing.")

    def add_arguments(self, parser) -> None:
        parser.add_argument("--receipt", action="append", type=receipt, default=[], metavar="BUILD:POSITION:HEAD",
                            help="a head from a printed sheet or a phone, to be borne out; may be given several times")

    def handle(self, *args, receipt: list[tuple[str, int, str]], **options) -> None:
        told: dict[str, dict[int, str]] = {}
        for build, seq, hash in receipt:
            told.setdefault(build, {})[seq] = hash
        found = list(flaws(told))
        for flaw in found:
            self.stdout.write(str(flaw))
        if found:
            raise CommandError(f"{len(found)} flaws. Keep this database as it is and restore the last backup beside it.", returncode=1)
        self.stdout.write(f"{Event.objects.count()} events are as they were stored.")
