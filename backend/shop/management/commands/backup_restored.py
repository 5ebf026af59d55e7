from django.core.management.base import BaseCommand

from shop.models import Shop, new_epoch


class Command(BaseCommand):
    help = ("Run once after the database was put back from a backup: every phone then sends all its events again, "
            "and what the backup lacked comes back. Doing it needlessly is harmless.")

    def handle(self, *args, **options) -> None:
        shops = list(Shop.objects.all())
        for shop in shops:
            shop.epoch = new_epoch()
            shop.save(update_fields=["epoch"])
        self.stdout.write(f"{len(shops)} shops are of a new generation. Phones send everything again at their next sync.")
