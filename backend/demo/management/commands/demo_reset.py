from django.core.management.base import BaseCommand

from demo import world
from demo.load import load
from demo.reset import clear


class Command(BaseCommand):
    help = ("Empties the demo shop's record and loads it afresh; no other shop is touched. Phones must log in again; "
            "a phone that still holds old demo events sends them again, so clear its site data as well.")

    def handle(self, *args, **options) -> None:
        self.stdout.write(f"{clear()} events of {world.SHOP[1]} removed.")
        self.stdout.write(f"{load().name} is loaded afresh.")
