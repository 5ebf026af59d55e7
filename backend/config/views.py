"""The page, its worker and the health of the server."""
import sqlite3

from django.conf import settings
from django.db import OperationalError, connection
from django.http import HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe
from drf_spectacular.utils import extend_schema
from pwa.views import service_worker
from rest_framework import serializers
from rest_framework.permissions import AllowAny
from rest_framework.response import Response
from rest_framework.views import APIView

from .databases import journal_mode

NOT_BUILT = """<!doctype html><html lang="en"><meta charset="utf-8"><title>Halfthou</title>
<p>The server runs, but the bench page has not been built yet. Run <code>make run</code>, which builds it.</p></html>"""


@never_cache
@require_safe
def page(request, **_):
    """The one page of the app, for every address the front end names itself."""
    try:
        return HttpResponse((settings.DIST / "index.html").read_bytes())
    except FileNotFoundError:
        return HttpResponse(NOT_BUILT, status=503)


# The kill switch: gives up the shell that the phone holds, and itself. What was recorded lies in the phone's database,
# which this neither opens nor clears; and it reloads nothing, so it cannot loop.
GIVE_UP = """self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) await caches.delete(name);
  await self.registration.unregister();
})()));
"""


@never_cache
def worker(request):
    """The service worker. An absent one is a plain 404, so the phone keeps the worker it has."""
    if settings.WORKER_OFF:
        return HttpResponse(GIVE_UP, content_type="text/javascript")
    try:
        return service_worker(request)
    except FileNotFoundError:
        return HttpResponse("The worker has not been built yet.", status=404, content_type="text/plain")


class Health(serializers.Serializer):
    ok = serializers.BooleanField()
    version = serializers.CharField()
    database = serializers.CharField()


class HealthView(APIView):
    authentication_classes: list = []
    permission_classes = [AllowAny]

    @extend_schema(responses=Health)
    def get(self, request):
        try:
            with connection.cursor() as cursor:
                cursor.execute("SELECT 1")
        except OperationalError:
            return Response({"ok": False, "version": settings.VERSION, "database": "not reachable"}, status=503)
        return Response({"ok": True, "version": settings.VERSION, "database": _database()})


def _database() -> str:
    if connection.vendor == "sqlite":
        return f"SQLite {sqlite3.sqlite_version}, {journal_mode()} journal"
    return connection.vendor
