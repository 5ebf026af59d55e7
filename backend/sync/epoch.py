"""Law: a server restored from an old backup, with its phones, loses nothing.

A phone of this very generation that holds a later position than the server has shows that the server went back. The
shop's epoch then changes, and every phone sends its events again.
"""
from record.models import Build
from shop.models import Shop, new_epoch


def cursors(shop: Shop, epoch: object, follow: dict[str, int]) -> dict[str, int]:
    """From where to send each build: from its start when the phone speaks of another generation."""
    if epoch != shop.epoch:
        return {}
    if _went_back(shop, follow):
        shop.epoch = new_epoch()
        shop.save(update_fields=["epoch"])
        return {}
    return follow


def _went_back(shop: Shop, follow: dict[str, int]) -> bool:
    heads = dict(Build.objects.filter(shop=shop, key__in=list(follow)).values_list("key", "head"))
    return any(seq > heads[key] for key, seq in follow.items() if key in heads)
