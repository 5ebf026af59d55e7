"""Wrong passwords are counted by name and by address; right ones are not, since a shop's phones share one address."""
from django.core.cache import cache

WINDOW_SECONDS = 600
BY_NAME = 10
BY_ADDRESS = 60


def too_many(*, name: str, address: str) -> bool:
    return any((cache.get(key) or 0) >= most for key, most in _counts(name, address))


def failed(*, name: str, address: str) -> None:
    for key, _ in _counts(name, address):
        cache.add(key, 0, WINDOW_SECONDS)
        try:
            cache.incr(key)
        except ValueError:  # it ran out between the two calls
            cache.set(key, 1, WINDOW_SECONDS)


def _counts(name: str, address: str) -> list[tuple[str, int]]:
    safe = name.encode("utf-8", "replace").hex()[:120]
    return [(f"login-name-{safe}-{address}", BY_NAME), (f"login-from-{address}", BY_ADDRESS)]
