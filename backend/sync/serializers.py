"""The shapes of a sync, for the published schema. The body itself is read by `request.py`, one event at a time."""
from rest_framework import serializers

from record.serializers import FindingOut
from shop.serializers import PersonNews, ShopOut


class EventIn(serializers.Serializer):
    dev = serializers.CharField()
    n = serializers.IntegerField()
    build = serializers.CharField()
    type = serializers.CharField()
    v = serializers.IntegerField()
    at = serializers.IntegerField()
    seen = serializers.IntegerField()
    body = serializers.DictField()


class EventOut(EventIn):
    seq = serializers.IntegerField()
    who = serializers.CharField()
    role = serializers.CharField()
    carried = serializers.CharField(required=False, help_text="who brought it in, where its author did not")
    mark = serializers.CharField(help_text="the server's signature on the event and its author")


class Receipt(serializers.Serializer):
    place = serializers.IntegerField()
    aside = serializers.IntegerField(required=False)
    link = serializers.CharField(allow_blank=True)


class SyncIn(serializers.Serializer):
    dev = serializers.CharField()
    epoch = serializers.CharField(allow_blank=True)
    events = EventIn(many=True)
    entries = serializers.ListField(child=serializers.ListField(), required=False,
                                    help_text="the phone's own events as rows: n, build, type, v, at, seen, body")
    follow = serializers.DictField(child=serializers.IntegerField())
    heads = serializers.DictField(child=serializers.CharField(), required=False)
    receipt = Receipt(required=False)
    brief = serializers.BooleanField(required=False, help_text="of what is stored now, tell no more than position and mark, with the verdict")


class VerdictOut(serializers.Serializer):
    n = serializers.IntegerField(allow_null=True)
    verdict = serializers.ChoiceField(["stored", "duplicate", "fork", "quarantined"])
    seq = serializers.IntegerField(required=False)
    why = serializers.CharField(required=False)
    mark = serializers.CharField(required=False, help_text="where the request was brief: the event is not among those of its build")


class BuildNews(serializers.Serializer):
    name = serializers.CharField()
    procedure = serializers.CharField()
    revision = serializers.IntegerField()
    digest = serializers.CharField(allow_blank=True)
    head = serializers.IntegerField()
    head_hash = serializers.CharField(allow_blank=True)
    events = EventOut(many=True)
    more = serializers.BooleanField()
    findings = FindingOut(many=True)
    reviewed = serializers.IntegerField()


class Author(serializers.Serializer):
    who = serializers.CharField()
    role = serializers.CharField()


class SyncOut(serializers.Serializer):
    epoch = serializers.CharField()
    time = serializers.IntegerField()
    device = Receipt()
    verdicts = VerdictOut(many=True)
    builds = serializers.DictField(child=BuildNews())
    people = serializers.DictField(child=PersonNews())
    shop = ShopOut()
    you = Author()


class ImportOut(serializers.Serializer):
    stored = serializers.IntegerField()
    known = serializers.IntegerField()
    aside = serializers.IntegerField()
    says = serializers.CharField()
