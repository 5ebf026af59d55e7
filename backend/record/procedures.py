"""The compiled procedures this server has, by id and revision."""
from catalogue import library


def procedure(id: str, revision: int) -> dict | None:
    return library.load_all().get((id, revision))


def newest() -> list[dict]:
    """The newest revision of each, by id."""
    found: dict[str, dict] = {}
    for (id, revision), compiled in library.load_all().items():
        if id not in found or revision > found[id]["revision"]:
            found[id] = compiled
    return [found[id] for id in sorted(found)]


def digest(id: str, revision: int) -> str:
    compiled = procedure(id, revision)
    return compiled["digest"] if compiled else ""
