"""Law: an event is written once. `raw` is the canonical bytes the phone's part stands for; everything else about an
event can be worked out from it, its position and the credentials it came with.
"""
import json

from django.db import models

from shop.models import Device, Person, Shop


class Build(models.Model):
    """One engine being assembled. Its row lock is what makes `seq` gapless."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="builds")
    key = models.CharField(max_length=40)
    name = models.CharField(max_length=120)
    procedure = models.CharField(max_length=80)
    revision = models.IntegerField()
    duty = models.CharField(max_length=40)
    head = models.BigIntegerField(default=0)
    head_hash = models.CharField(max_length=64, default="", blank=True)
    # From this position on the chain holds seals; before it, the bare hashes of a build begun earlier.
    sealed_from = models.BigIntegerField(default=1)
    last_event = models.DateTimeField(null=True)
    dirty = models.BooleanField(default=False, db_index=True)
    claimed = models.DateTimeField(null=True)
    people = models.ManyToManyField(Person, related_name="builds", blank=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["shop", "key"], name="one_key_a_shop")]

    def __str__(self) -> str:
        return self.name


class Event(models.Model):
    # Found by position, so the two keys need no index of their own; see also `belonging`.
    build = models.ForeignKey(Build, on_delete=models.PROTECT, related_name="events", db_index=False)
    seq = models.BigIntegerField()
    dev = models.CharField(max_length=32)
    n = models.BigIntegerField()
    place = models.BigIntegerField()  # 1..k among all of its device's events, in the order in which they came
    type = models.CharField(max_length=40)
    v = models.IntegerField()
    at = models.BigIntegerField()
    seen = models.BigIntegerField()
    who = models.CharField(max_length=40)
    role = models.CharField(max_length=12)
    person = models.ForeignKey(Person, on_delete=models.PROTECT, db_index=False)
    carried = models.CharField(max_length=40, default="", blank=True)  # who brought it in, where the author did not
    # Bytes, not a JSON column: PostgreSQL's would refuse or reorder what a phone may lawfully write.
    raw = models.BinaryField()
    hash = models.CharField(max_length=64)
    seal = models.CharField(max_length=64)
    chain = models.CharField(max_length=64)  # the build's head after this event
    link = models.CharField(max_length=64)  # its device's
    received = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["dev", "n"], name="one_event_a_key"),
            models.UniqueConstraint(fields=["build", "seq"], name="one_event_a_seq"),
            models.UniqueConstraint(fields=["dev", "place"], name="one_event_a_place"),
        ]

    @property
    def id_text(self) -> str:
        return f"{self.dev}:{self.n}"

    def wire(self) -> dict:
        """As phones and the kernel read it: the phone's part, and what the server stamped."""
        stamps = {"seq": self.seq, "who": self.who, "role": self.role} | ({"carried": self.carried} if self.carried else {})
        return json.loads(bytes(self.raw)) | stamps


class Quarantine(models.Model):
    """Bytes that could not join a build: malformed, too big, of no build here, or a second version of a stored key."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT)
    device = models.ForeignKey(Device, on_delete=models.PROTECT)
    person = models.ForeignKey(Person, on_delete=models.PROTECT)
    role = models.CharField(max_length=12, default="", blank=True)
    carried = models.CharField(max_length=40, default="", blank=True)
    build = models.ForeignKey(Build, null=True, on_delete=models.PROTECT, related_name="quarantined")
    kind = models.CharField(max_length=12)
    why = models.CharField(max_length=300)
    event = models.CharField(max_length=60)
    raw = models.BinaryField()
    hash = models.CharField(max_length=64)
    received = models.DateTimeField()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["device", "hash"], name="put_aside_once")]


class Reading(models.Model):
    """Projection: one attempt at one spot. `value` is on the kernel's number grid; null when it could not be read."""

    build = models.ForeignKey(Build, on_delete=models.CASCADE, related_name="readings")
    seq = models.BigIntegerField()
    event = models.CharField(max_length=60)
    spot = models.CharField(max_length=120)
    point = models.CharField(max_length=80)
    station = models.CharField(max_length=40)
    value = models.BigIntegerField(null=True)
    text = models.CharField(max_length=80)
    unit = models.CharField(max_length=20)
    who = models.CharField(max_length=40)
    at = models.BigIntegerField()
    counts = models.BooleanField()
    struck = models.BooleanField()

    class Meta:
        indexes = [models.Index(fields=["point", "station"]), models.Index(fields=["build", "seq"])]


class BuildStatus(models.Model):
    """Projection: what the kernel last said of the build, as JSON text (text, because it may hold any character)."""

    build = models.OneToOneField(Build, on_delete=models.CASCADE, related_name="status")
    seq = models.BigIntegerField()
    head_hash = models.CharField(max_length=64)
    answer = models.TextField()

    @property
    def said(self) -> dict:
        return json.loads(self.answer)
