"""`Authorization: Device <token>`: 256 random bits, of which the server keeps the SHA-256 only."""
import hashlib
import secrets
from datetime import timedelta

from django.conf import settings
from django.utils import timezone
from drf_spectacular.extensions import OpenApiAuthenticationExtension
from rest_framework.authentication import BaseAuthentication, get_authorization_header
from rest_framework.exceptions import AuthenticationFailed

from .models import Device, DeviceToken, Person

EXPIRED = "This login is no longer valid. What you record is kept; log in again at the next quiet moment."


def digest_of(token: str) -> str:
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()


def issue(*, device: Device, person: Person) -> tuple[str, DeviceToken]:
    """A new token for this person on this phone; his earlier one there ends. Several people may share a phone."""
    token = secrets.token_urlsafe(32)
    DeviceToken.objects.filter(device=device, person=person).delete()
    row = DeviceToken.objects.create(device=device, person=person, digest=digest_of(token),
                                     expires=timezone.now() + timedelta(days=settings.TOKEN_DAYS))
    return token, row


class DeviceAuthentication(BaseAuthentication):
    """Gives `request.user` (the person) and `request.auth` (the token row, with its device)."""

    def authenticate(self, request):
        words = get_authorization_header(request).split()
        if not words or words[0].lower() != b"device":
            return None
        if len(words) != 2:
            raise AuthenticationFailed(EXPIRED)
        row = _row(words[1].decode("latin-1"))
        if row is None or row.expires <= timezone.now() or not row.person.is_active:
            raise AuthenticationFailed(EXPIRED)
        return row.person, row

    def authenticate_header(self, request) -> str:
        return "Device"


def _row(token: str) -> DeviceToken | None:
    rows = DeviceToken.objects.select_related("device", "person__shop")
    return rows.filter(digest=digest_of(token)).first()


class DeviceScheme(OpenApiAuthenticationExtension):
    target_class = "shop.tokens.DeviceAuthentication"
    name = "device"

    def get_security_definition(self, auto_schema):
        return {"type": "apiKey", "in": "header", "name": "Authorization", "description": "Device <token>"}
