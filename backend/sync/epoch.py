"""Law: a server restored from an old backup, with its phones, loses nothing.

A phone of this very generation shows that the server went back when it holds a later position than the server has, or a
receipt that the server's chains do not bear out: others may have filled the positions anew meanwhile. The shop's epoch
then changes, and every phone sends its events again.
"""
import logging

from django.db.models import Q

from record.models import Build, Event
from record.selectors import put_aside
from shop.models import Device, Shop, new_epoch

from .request import SyncRequest

log = logging.getLogger(__name__)


def cursors(shop: Shop, device: Device, asked: SyncRequest) -> dict[str, int]:
    """From where to send each build: from its start when the phone speaks of another generation."""
    if asked.epoch != shop.epoch:
        return {}
    if _went_back(shop, asked) or _forgot(device, asked):
        log.warning("sync: the record of %s is older than what phone %s holds; it begins a new generation", shop, device)
        shop.epoch = new_epoch()
        shop.save(update_fields=["epoch"])
        return {}
    return asked.follow


def _went_back(shop: Shop, asked: SyncRequest) -> bool:
    builds = {b.key: b for b in Build.objects.filter(shop=shop, key__in=list(asked.follow))}
    here = {key: seq for key, seq in asked.follow.items() if key in builds}
    return any(seq > builds[key].head for key, seq in here.items()) or _other_chain(here, builds, asked.heads)


def _other_chain(here: dict[str, int], builds: dict[str, Build], heads: dict[str, str]) -> bool:
    told = {(builds[key].pk, seq): heads[key] for key, seq in here.items() if seq and key in heads}
    at_head = {at: hash for at, hash in told.items() if _is_head(builds.values(), at)}
    if any(_head_hash(builds.values(), at) != hash for at, hash in at_head.items()):
        return True
    older = {at: hash for at, hash in told.items() if at not in at_head}
    if not older:
        return False
    where = Q()
    for pk, seq in older:
        where |= Q(build=pk, seq=seq)
    found = {(b, s): c for b, s, c in Event.objects.filter(where).values_list("build", "seq", "chain")}
    return any(found.get(at) != hash for at, hash in older.items())


def _is_head(builds, at: tuple[int, int]) -> bool:
    return any((b.pk, b.head) == at for b in builds)


def _head_hash(builds, at: tuple[int, int]) -> str:
    return next(b.head_hash for b in builds if b.pk == at[0])


def _forgot(device: Device, asked: SyncRequest) -> bool:
    """Whether the phone has a receipt for something of its own that this record does not hold, in a build or put aside."""
    if asked.aside and asked.aside > put_aside(device):
        return True
    place, link = asked.receipt
    if asked.receipt == (device.count, device.link):
        return False
    return place > 0 and not Event.objects.filter(dev=device.dev, place=place, link=link).exists()
