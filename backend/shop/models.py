"""Law: every row belongs to one shop, and a credential is kept only as its hash."""
import secrets

from django.contrib.auth.models import AbstractUser
from django.db import models


def new_epoch() -> str:
    return secrets.token_hex(8)


def new_key() -> str:
    return secrets.token_hex(32)


class Shop(models.Model):
    slug = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=80)
    # The generation of the server's record. It changes after a restore, and phones then send everything again.
    epoch = models.CharField(max_length=32, default=new_epoch)
    # Signs events on their way to phones. It is kept with the record, so that a restored record knows its own.
    mark_key = models.CharField(max_length=64, default=new_key, editable=False)
    # Invented, and may be begun afresh. Only the loading of the demo says so; a shop that people work in never becomes one.
    demo = models.BooleanField(default=False, editable=False)

    def __str__(self) -> str:
        return self.name


class Role(models.TextChoices):
    OWNER = "owner", "Owner"
    BUILDER = "builder", "Builder"
    APPRENTICE = "apprentice", "Apprentice"
    CREW_CHIEF = "crew_chief", "Crew chief"


class Person(AbstractUser):
    """Someone who logs in. `slug` is the public id within the shop; events carry it as `who`."""

    shop = models.ForeignKey(Shop, null=True, blank=True, on_delete=models.PROTECT, related_name="people")
    slug = models.SlugField(max_length=40)
    name = models.CharField(max_length=80)
    role = models.CharField(max_length=12, choices=Role.choices, default=Role.BUILDER)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["shop", "slug"], name="one_slug_a_shop")]

    def save(self, *args, **kwargs) -> None:
        self.slug = self.slug or self.username
        self.name = self.name or self.username
        super().save(*args, **kwargs)

    def __str__(self) -> str:
        return self.name


class Device(models.Model):
    """One phone database. Its number is minted on the phone and belongs to the shop that first logged it in."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="devices")
    dev = models.CharField(max_length=32, unique=True)
    label = models.CharField(max_length=80)
    person = models.ForeignKey(Person, null=True, on_delete=models.SET_NULL)
    last_sync = models.DateTimeField(null=True)
    waiting = models.PositiveIntegerField(default=0)
    # How many of its events are in the record, and the chain over them.
    count = models.BigIntegerField(default=0, editable=False)
    link = models.CharField(max_length=64, default="", blank=True, editable=False)
    homeless = models.BooleanField(default=False, editable=False)  # events of it wait for somebody to open their build

    def __str__(self) -> str:
        return self.label or self.dev[:8]


class DeviceToken(models.Model):
    device = models.ForeignKey(Device, on_delete=models.CASCADE, related_name="tokens")
    person = models.ForeignKey(Person, on_delete=models.CASCADE)
    digest = models.CharField(max_length=64, unique=True)
    expires = models.DateTimeField()
