"""All addresses. Order matters: API, admin, worker and manifest come before the page that answers everything else."""
from django.contrib import admin
from django.urls import include, path, re_path
from django.views.decorators.cache import never_cache
from drf_spectacular.views import SpectacularAPIView
from pwa.views import manifest

from board.views import BoardView, ProceduresView, ProcedureView, SheetView
from demo.views import DemoView
from shop.views import LoginView, LogoutView
from sync.views import ImportView, SyncView

from .errors import no_such_address
from .views import HealthView, page, worker

api = [
    path("login", LoginView.as_view(), name="login"),
    path("logout", LogoutView.as_view(), name="logout"),
    path("sync", SyncView.as_view(), name="sync"),
    path("import", ImportView.as_view(), name="import"),
    path("procedures", ProceduresView.as_view(), name="procedures"),
    path("procedures/<slug:procedure>/<int:revision>", ProcedureView.as_view(), name="procedure"),
    path("board", BoardView.as_view(), name="board"),
    path("builds/<slug:build>/sheet", SheetView.as_view(), name="sheet"),
    path("demo", DemoView.as_view(), name="demo"),
    path("schema", SpectacularAPIView.as_view(), name="schema"),
    path("health", HealthView.as_view(), name="health"),
    re_path(r"^", no_such_address, name="no-such-address"),
]

urlpatterns = [
    path("api/", include(api)),
    path("admin/", admin.site.urls),
    path("serviceworker.js", worker, name="serviceworker"),
    path("manifest.json", never_cache(manifest), name="manifest"),
    path("", include("pwa.urls")),
    re_path(r"^(?!static/|api/|admin/|serviceworker\.js$|manifest\.json$).*$", page, name="page"),
]
