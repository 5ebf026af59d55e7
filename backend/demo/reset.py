"""The demo shop is begun afresh. Law: nothing leaves the record for that, and the guard stays up.

What was recorded goes, as it stands, to a shop of its own that nobody belongs to, with the phones that recorded it. So a
phone that still holds the old demo cannot bring it back: its number and its log-ins belong to what was set aside, and it
starts with an empty log of its own.
"""
from django.db import transaction

from record.models import Build, Event
from shop.models import Device, DeviceToken, Shop, new_epoch, new_key

from . import world
from .load import load


class NotADemo(Exception):
    """Asked of a shop that people work in, or of a demo that was set aside."""


@transaction.atomic
def begin_afresh(shop: Shop) -> int:
    """How many entries were set aside. The fresh demo is there when this commits, or everything is as it was."""
    shop = Shop.objects.select_for_update().get(pk=shop.pk)
    if not shop.demo or shop.slug != world.SHOP[0]:
        raise NotADemo(shop.slug)
    entries = Event.objects.filter(build__shop=shop).count()
    _set_aside(shop)
    load()
    return entries


def _set_aside(shop: Shop) -> None:
    number = world.times_begun() + 1
    old = Shop.objects.create(slug=f"{shop.slug}-{number}", name=f"{shop.name}, set aside ({number})", demo=True,
                              epoch=shop.epoch, mark_key=shop.mark_key)
    DeviceToken.objects.filter(device__shop=shop).delete()
    Device.objects.filter(shop=shop).update(shop=old)
    builds = Build.objects.filter(shop=shop)
    Build.people.through.objects.filter(build__in=builds).delete()
    builds.update(shop=old, dirty=False)
    # Another generation with another key: what an old phone or file says of the old one counts for nothing here.
    shop.epoch, shop.mark_key = new_epoch(), new_key()
    shop.save(update_fields=["epoch", "mark_key"])
