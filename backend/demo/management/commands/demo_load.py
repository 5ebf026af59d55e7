from django.core.management.base import BaseCommand

from demo import world
from demo.load import load


class Command(BaseCommand):
    help = "Loads the invented demo shop. Safe to run at every start."

    def handle(self, *args, **options) -> None:
        shop = load()
        self.stdout.write(f"{shop.name}: who can log in (name / password)")
        for slug, name, role, password in world.PEOPLE:
            self.stdout.write(f"  {slug:<8} {password:<14} {name}, {role.replace('_', ' ')}")
