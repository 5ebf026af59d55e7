"""Logging in and out. Writes only; keyword-only."""
from django.contrib.auth import authenticate
from django.db import transaction

from .models import Device, DeviceToken, Person
from .tokens import issue

WRONG = "That name and password do not fit together. Check both and try again."
OTHER_SHOP = "This phone already keeps another shop's record. Use a phone, or a browser profile, of its own for this shop."


BEGUN_AFRESH = "The demo shop was begun afresh, and this phone still holds the old one. Begin afresh on this phone, too; then log in."


class Refused(Exception):
    """Carries the sentence the person reads."""


class BegunAfresh(Refused):
    """The password is right, but this phone's number went away with an earlier demo."""


@transaction.atomic
def log_in(*, name: str, password: str, dev: str, label: str) -> tuple[str, DeviceToken]:
    """A token for this person on this phone. Refused when the password is wrong or the phone is another shop's."""
    person = authenticate(username=name.strip().lower(), password=password)
    if not isinstance(person, Person) or person.shop is None:
        raise Refused(WRONG)
    device, _ = Device.objects.get_or_create(dev=dev, defaults={"shop": person.shop, "label": label})
    if device.shop_id != person.shop_id and device.shop.demo and person.shop.demo:
        raise BegunAfresh(BEGUN_AFRESH)
    if device.shop_id != person.shop_id:
        raise Refused(OTHER_SHOP)
    device.person, device.label = person, label or device.label or f"{person.name}’s phone"
    device.save(update_fields=["person", "label"])
    return issue(device=device, person=person)


def log_out(*, token: DeviceToken) -> None:
    token.delete()
