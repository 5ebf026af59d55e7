"""Settings by environment: DATABASE_URL, REDIS_URL, HALFTHOU_JOBS, HALFTHOU_DATA, SECRET_KEY, ALLOWED_HOSTS, DEBUG.

The embedded form (SQLite, jobs inline, no broker) is what an empty environment gives.
"""
import mimetypes
import os

from .databases import from_url
from .env import REPO, data_folder, flag, secret_key, words

VERSION = "0.1.0"
DEBUG = flag("DEBUG")
DATA = data_folder()
SECRET_KEY = secret_key(DATA)
ALLOWED_HOSTS = words("ALLOWED_HOSTS", "*")
CSRF_TRUSTED_ORIGINS = words("CSRF_TRUSTED_ORIGINS", "")
DIST = REPO / "frontend" / "dist"

INSTALLED_APPS = [
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "rest_framework",
    "drf_spectacular",
    "pwa",
    "shop",
    "record",
    "sync",
    "review",
    "board",
    "demo",
]
MIDDLEWARE = [
    "config.headers.SecurityHeaders",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
]
TEMPLATES = [{
    "BACKEND": "django.template.backends.django.DjangoTemplates",
    "APP_DIRS": True,
    "OPTIONS": {"context_processors": [
        "django.template.context_processors.request",
        "django.contrib.auth.context_processors.auth",
        "django.contrib.messages.context_processors.messages",
    ]},
}]
ROOT_URLCONF = "config.urls"
WSGI_APPLICATION = "config.wsgi.application"
ASGI_APPLICATION = "config.asgi.application"
DATABASES = {"default": from_url(os.environ.get("DATABASE_URL", ""), DATA)}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
AUTH_USER_MODEL = "shop.Person"
USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = False
APPEND_SLASH = False

# A phone sends at most 256 KB; the room above that lets one oversized event be put aside instead of blocking its queue.
DATA_UPLOAD_MAX_MEMORY_SIZE = 4 * 1024 * 1024

# Front end: Vite builds into frontend/dist with base /static/.
mimetypes.add_type("application/wasm", ".wasm")
mimetypes.add_type("text/javascript", ".mjs")
STATIC_URL = "/static/"
STATIC_ROOT = os.environ.get("HALFTHOU_STATIC") or str(REPO / "backend" / "static_built")
COLLECTED = flag("HALFTHOU_COLLECTED")
# Named even when it is absent: in development it may be built after the server has started.
STATICFILES_DIRS = [DIST] if DIST.is_dir() or not COLLECTED else []
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedStaticFilesStorage" if COLLECTED
                    else "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
# Without collectstatic the files are found where they lie, also those built after the start.
WHITENOISE_USE_FINDERS = not COLLECTED
WHITENOISE_AUTOREFRESH = not COLLECTED
WHITENOISE_ALLOW_ALL_ORIGINS = False
WHITENOISE_IMMUTABLE_FILE_TEST = r"^/static/assets/.+-[A-Za-z0-9_-]{8}\.[a-z0-9]+$"

WORKER_OFF = flag("HALFTHOU_WORKER_OFF")
PWA_SERVICE_WORKER_PATH = str(DIST / "sw.js")
PWA_APP_NAME = "Halfthou"
PWA_APP_SHORT_NAME = "Halfthou"
PWA_APP_DESCRIPTION = "A bench companion for engines assembled from measured parts."
PWA_APP_THEME_COLOR = "#f4f1e8"
PWA_APP_BACKGROUND_COLOR = "#f4f1e8"
PWA_APP_DISPLAY = "standalone"
PWA_APP_SCOPE = "/"
PWA_APP_START_URL = "/"
PWA_APP_ORIENTATION = "any"
PWA_APP_DIR = "ltr"
PWA_APP_LANG = "en"
PWA_APP_ICONS = [
    {"src": "/static/icon-192.png", "sizes": "192x192", "type": "image/png"},
    {"src": "/static/icon-512.png", "sizes": "512x512", "type": "image/png", "purpose": "any maskable"},
]
PWA_APP_ICONS_APPLE = []
PWA_APP_SPLASH_SCREEN = []
PWA_APP_DEBUG_MODE = False

REST_FRAMEWORK = {
    "DEFAULT_AUTHENTICATION_CLASSES": ["shop.tokens.DeviceAuthentication"],
    "DEFAULT_PERMISSION_CLASSES": ["rest_framework.permissions.IsAuthenticated"],
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["rest_framework.parsers.JSONParser"],
    "DEFAULT_SCHEMA_CLASS": "drf_spectacular.openapi.AutoSchema",
    "EXCEPTION_HANDLER": "config.errors.as_sentence",
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Halfthou",
    "DESCRIPTION": "The door between phones and the shop's server. A thing of another shop answers as a missing one.",
    "VERSION": VERSION,
    "SERVE_PERMISSIONS": ["rest_framework.permissions.AllowAny"],
    "SERVE_AUTHENTICATION": [],
}
TOKEN_DAYS = 90

# Jobs: inline (after the commit, in the request) or through Celery.
JOBS = os.environ.get("HALFTHOU_JOBS", "inline")
REDIS_URL = os.environ.get("REDIS_URL", "redis://127.0.0.1:6379/0")
CELERY_BROKER_URL = REDIS_URL
CELERY_TASK_ALWAYS_EAGER = JOBS != "celery"
CELERY_TASK_EAGER_PROPAGATES = False
CELERY_TASK_IGNORE_RESULT = True
CELERY_TASK_ACKS_LATE = True
CELERY_TASK_PUBLISH_RETRY = False
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
CELERY_BROKER_TRANSPORT_OPTIONS = {"socket_connect_timeout": 2, "socket_timeout": 5, "visibility_timeout": 300}
CELERY_BEAT_SCHEDULE = {"sweep-dirty-builds": {"task": "review.tasks.sweep", "schedule": 30.0}}
CELERY_BEAT_SCHEDULE_FILENAME = str(DATA / "celerybeat-schedule")
CACHES = {"default": {"BACKEND": "django.core.cache.backends.redis.RedisCache", "LOCATION": REDIS_URL}
          if JOBS == "celery" else {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"}}

# https is set up by the proxy or by the server's own certificate; cookies serve only /admin/.
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if flag("HALFTHOU_BEHIND_PROXY") else None
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = flag("HALFTHOU_BEHIND_PROXY")
SECURE_HSTS_SECONDS = int(os.environ.get("HALFTHOU_HSTS", "0"))
SECURE_REFERRER_POLICY = "same-origin"

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}},
    "root": {"handlers": ["console"], "level": os.environ.get("LOG_LEVEL", "WARNING")},
    # A phone that must log in again is an everyday thing, not a line in the log.
    "loggers": {"django.request": {"level": "ERROR"}},
}
SILENCED_SYSTEM_CHECKS = ["staticfiles.W004"]
