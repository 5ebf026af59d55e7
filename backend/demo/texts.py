"""How figures are written in the demo's files: `4.0301 4.0300 in` is a figure a station, `4.0301 in` the same at every one."""
from collections.abc import Iterator

Told = str | dict[str, str]


def figures(told: Told, stations: list[str]) -> Iterator[tuple[str, str, str]]:
    """(station, number, unit). A mapping tells stations by name."""
    if isinstance(told, dict):
        for station, text in told.items():
            yield (station, *quantity(text))
        return
    *numbers, unit = told.split()
    given = numbers * len(stations) if len(numbers) == 1 else numbers
    for station, number in zip(stations, given, strict=True):
        yield station, number, unit


def quantity(text: str) -> tuple[str, str]:
    number, unit = text.split()
    return number, unit


def size(text: str | None) -> dict | None:
    """`{text, unit}` as bodies of events carry it."""
    if not text:
        return None
    number, unit = quantity(text)
    return {"text": number, "unit": unit}
