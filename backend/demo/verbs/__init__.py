"""The verbs of the diary, by the word each entry begins with."""
from ..pen import Pen, Verb
from . import parts, shop, work

VERBS: dict[str, Verb] = {
    "step": work.step, "reads": work.reads, "again": work.again, "files": work.files, "strikes": work.strikes,
    "adds": parts.adds, "names": parts.names, "measures": parts.measures, "puts": parts.puts,
    "opens": shop.opens, "limits": shop.limits, "concedes": shop.concedes, "reviews": shop.reviews,
}


def tell(pen: Pen, entry: dict) -> None:
    """Writes one entry of the diary."""
    verb = next(iter(entry))
    VERBS[verb](pen, entry)
