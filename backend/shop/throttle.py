"""Wrong passwords are counted by name and by address; right ones are not, since a shop's phones share one address.

The counts are kept where they may be lost. While that place is away nobody is counted, and nobody is kept out.
"""
import logging

from django.core.cache import cache

log = logging.getLogger(__name__)
WINDOW_SECONDS = 600
BY_NAME = 10
BY_ADDRESS = 60


def too_many(*, name: str, address: str) -> bool:
    try:
        return any((cache.get(key) or 0) >= most for key, most in _counts(name, address))
    except Exception:
        log.warning("login: the counts of wrong passwords are out of reach", exc_info=True)
        return False


def failed(*, name: str, address: str) -> None:
    try:
        for key, _ in _counts(name, address):
            _count(key)
    except Exception:
        log.warning("login: the counts of wrong passwords are out of reach", exc_info=True)


def _count(key: str) -> None:
    cache.add(key, 0, WINDOW_SECONDS)
    try:
        cache.incr(key)
    except ValueError:  # it ran out between the two calls
        cache.set(key, 1, WINDOW_SECONDS)


def _counts(name: str, address: str) -> list[tuple[str, int]]:
    safe = name.encode("utf-8", "replace").hex()[:120]
    return [(f"login-name-{safe}-{address}", BY_NAME), (f"login-from-{address}", BY_ADDRESS)]
