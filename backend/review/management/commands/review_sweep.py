from django.core.management.base import BaseCommand

from review.tasks import sweep


class Command(BaseCommand):
    help = "Reviews every build whose last events no review has seen. Run at the start of a server without Celery."

    def handle(self, *args, **options) -> None:
        self.stdout.write(f"{sweep()} builds sent for review.")
