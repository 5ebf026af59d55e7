"""The shapes of the board and the sheet, for the published schema. The kernel's own shapes are named in types.ts."""
from rest_framework import serializers

from record.serializers import FindingOut
from shop.serializers import PersonNews, ShopOut


class Phase(serializers.Serializer):
    id = serializers.CharField()
    title = serializers.CharField()
    done = serializers.IntegerField()
    total = serializers.IntegerField()
    status = serializers.CharField()


class Hold(serializers.Serializer):
    title = serializers.CharField()
    sentence = serializers.CharField()
    since = serializers.IntegerField()


class Working(serializers.Serializer):
    who = serializers.CharField()
    at = serializers.IntegerField()
    step = serializers.CharField(allow_blank=True)


class DeviceOut(serializers.Serializer):
    label = serializers.CharField()  # type: ignore[assignment]
    who = serializers.CharField()
    last_sync = serializers.IntegerField()
    waiting = serializers.IntegerField()


class FitValue(serializers.Serializer):
    station = serializers.CharField()
    raw = serializers.IntegerField(allow_null=True)
    shown = serializers.CharField()
    state = serializers.CharField()


class FitOut(serializers.Serializer):
    fit = serializers.CharField()
    title = serializers.CharField()
    low = serializers.IntegerField(allow_null=True)
    high = serializers.IntegerField(allow_null=True)
    shown_limit = serializers.CharField()
    values = FitValue(many=True)  # type: ignore[assignment]


class BoardBuild(serializers.Serializer):
    id = serializers.CharField()
    name = serializers.CharField()
    procedure = serializers.CharField()
    phases = Phase(many=True)
    holds = Hold(many=True)
    again = serializers.ListField(child=serializers.DictField())
    concessions = serializers.ListField(child=serializers.DictField())
    findings = FindingOut(many=True)
    fits = FitOut(many=True)
    working = Working(allow_null=True)
    devices = DeviceOut(many=True)
    head = serializers.IntegerField()
    reviewed = serializers.IntegerField()
    last_event = serializers.IntegerField()


class BoardOut(serializers.Serializer):
    time = serializers.IntegerField()
    shop = serializers.CharField()
    builds = BoardBuild(many=True)


class ReadingOut(serializers.Serializer):
    event = serializers.CharField()
    spot = serializers.CharField()
    point = serializers.CharField()
    station = serializers.CharField(allow_blank=True)
    value = serializers.IntegerField(allow_null=True)
    text = serializers.CharField()
    unit = serializers.CharField()
    who = serializers.CharField()
    at = serializers.IntegerField()
    counts = serializers.BooleanField()
    struck = serializers.BooleanField()
    seq = serializers.IntegerField()
    title = serializers.CharField()


class SheetIdentity(serializers.Serializer):
    id = serializers.CharField()
    name = serializers.CharField()
    duty = serializers.CharField()
    procedure = serializers.CharField()
    revision = serializers.IntegerField()
    title = serializers.CharField()
    digest = serializers.CharField()


class SheetOut(serializers.Serializer):
    build = SheetIdentity()
    shop = ShopOut()
    people = serializers.DictField(child=PersonNews())
    phases = Phase(many=True)
    parts = serializers.ListField(child=serializers.DictField())
    readings = ReadingOut(many=True)
    fits = FitOut(many=True)
    limits = serializers.DictField()
    holds = Hold(many=True)
    again = serializers.ListField(child=serializers.DictField())
    concessions = serializers.ListField(child=serializers.DictField())
    findings = FindingOut(many=True)
    head = serializers.IntegerField()
    head_hash = serializers.CharField()
    reviewed = serializers.IntegerField()
    last_event = serializers.IntegerField()


class ProcedureLine(serializers.Serializer):
    id = serializers.CharField()
    revision = serializers.IntegerField()
    title = serializers.CharField()
    digest = serializers.CharField()
