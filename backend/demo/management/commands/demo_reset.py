from django.core.management.base import BaseCommand

from demo import world
from demo.load import load
from demo.reset import begin_afresh
from shop.models import Shop


class Command(BaseCommand):
    help = ("Begins the demo shop afresh; no other shop is touched. What was recorded in it is set aside, out of everybody's "
            "sight. Phones must log in again, and say then what to do with what they hold of the old one.")

    def handle(self, *args, **options) -> None:
        shop = Shop.objects.filter(slug=world.SHOP[0]).first()
        entries = begin_afresh(shop) if shop else 0
        load()
        self.stdout.write(f"{world.SHOP[1]} is begun afresh; {entries} entries of the old one are set aside.")
