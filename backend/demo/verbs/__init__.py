"""The verbs of the diary, by the word each entry begins with."""
from ..pen import Pen, Verb
from . import parts, shop, work

VERBS: dict[str, Verb] = {
    "steps": work.steps, "begins": work.begins, "reads": work.reads, "ticks": work.ticks, "again": work.again,
    "files": work.files, "strikes": work.strikes,
    "adds": parts.adds, "names": parts.names, "measures": parts.measures, "puts": parts.puts,
    "opens": shop.opens, "limits": shop.limits, "concedes": shop.concedes, "reviews": shop.reviews,
}


def tell(pen: Pen, entry: dict) -> None:
    """Writes one entry of the diary. ValueError says which entry does not go with its procedure."""
    verb = next(iter(entry))
    try:
        VERBS[verb](pen, entry)
    except (KeyError, ValueError, StopIteration) as why:
        raise ValueError(f"{pen.told['key']}: the entry “{verb}: {entry[verb]}” does not go with {pen.procedure['procedure']}: {why!r}") from why
