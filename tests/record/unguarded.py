"""The guard taken down for as long as a test plays a server that lost what it had; the server itself has no way to do it."""

from contextlib import contextmanager

from django.db import transaction

from record import guard


@contextmanager
def unguarded():
    with transaction.atomic():
        guard.remove()
        yield
        guard.install()
