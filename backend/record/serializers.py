from rest_framework import serializers


class FindingOut(serializers.Serializer):
    check = serializers.CharField()  # type: ignore[assignment]
    level = serializers.CharField()
    step = serializers.CharField(allow_blank=True)
    fit = serializers.CharField(allow_blank=True)
    station = serializers.CharField(allow_blank=True)
    says = serializers.CharField()
    why = serializers.CharField(allow_blank=True)
    cure = serializers.CharField(allow_blank=True)
