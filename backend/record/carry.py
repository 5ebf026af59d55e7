"""Who wrote an event that another phone, or a file, brings in.

Law: an author is never taken on a phone's word. An event of another device counts as its author's when the server itself
once signed it so (it was lost in a restore), when an owner vouches for it, or when its author is the one who brings it.
The last two are stamped with the name of whoever carried it.
"""
import hmac
from typing import NamedTuple

from shop.models import Device, Person, Role, Shop

from .chain import mark
from .shape import Draft


class Author(NamedTuple):
    person: Person
    role: str
    carried: str = ""


def author_of(draft: Draft, carrier: Person, device: Device | None) -> Author | None:
    """None when nobody can vouch for it. `device`: the one that wrote it, where this shop knows it."""
    shop = carrier.shop
    assert shop is not None
    person = Person.objects.filter(shop=shop, slug=draft.claim.get("who", "")).first()
    if person is None:
        return None
    if signed(draft, shop):
        return Author(person, draft.claim["role"], draft.claim["carried"])
    if device is not None and (carrier.role == Role.OWNER or carrier == person):
        return Author(person, person.role, "" if carrier == person else carrier.slug)
    return None


def signed(draft: Draft, shop: Shop) -> bool:
    claim = draft.claim
    if len(claim) != 4:
        return False
    ours = mark(shop.mark_key, dev=draft.dev, n=draft.n, who=claim["who"], role=claim["role"], carried=claim["carried"], hash=draft.hash)
    return hmac.compare_digest(ours.encode(), claim["mark"].encode("utf-8", "replace"))
