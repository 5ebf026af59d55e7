from django.contrib import admin
from django.contrib.auth.admin import UserAdmin

from .models import Device, Person, Shop


@admin.register(Person)
class PersonAdmin(UserAdmin):
    list_display = ("username", "name", "shop", "role", "is_active")
    fieldsets = (*UserAdmin.fieldsets, ("Shop", {"fields": ("shop", "slug", "name", "role")}))
    add_fieldsets = (*UserAdmin.add_fieldsets, ("Shop", {"fields": ("shop", "slug", "name", "role")}))


admin.site.register(Shop)


@admin.register(Device)
class DeviceAdmin(admin.ModelAdmin):
    list_display = ("label", "shop", "person", "last_sync", "waiting")
    readonly_fields = ("dev", "shop", "last_sync", "waiting")
