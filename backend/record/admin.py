"""For whoever runs the server: who was given which build. The record itself is read here, never written."""
from django.contrib import admin

from .models import Build, Event, Quarantine


class ReadOnly(admin.ModelAdmin):
    def has_add_permission(self, request) -> bool:
        return False

    def has_change_permission(self, request, obj=None) -> bool:
        return False

    def has_delete_permission(self, request, obj=None) -> bool:
        return False


@admin.register(Build)
class BuildAdmin(admin.ModelAdmin):
    list_display = ("name", "shop", "procedure", "head", "last_event")
    fields = ("name", "shop", "procedure", "revision", "duty", "head", "head_hash", "people")
    readonly_fields = ("name", "shop", "procedure", "revision", "duty", "head", "head_hash")
    filter_horizontal = ("people",)

    def has_add_permission(self, request) -> bool:
        return False

    def has_delete_permission(self, request, obj=None) -> bool:
        return False


@admin.register(Event)
class EventAdmin(ReadOnly):
    list_display = ("build", "seq", "type", "who", "received")
    list_select_related = ("build",)
    exclude = ("raw",)


@admin.register(Quarantine)
class QuarantineAdmin(ReadOnly):
    list_display = ("event", "kind", "why", "device", "received")
    list_select_related = ("device",)
    exclude = ("raw",)
