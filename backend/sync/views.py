"""POST /api/sync. Thin: read, store, note the phone, answer after the commit."""
import logging

from django.core.exceptions import RequestDataTooBig
from django.db import OperationalError, transaction
from django.http import UnreadablePostError
from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework.exceptions import AuthenticationFailed
from rest_framework.response import Response
from rest_framework.views import APIView

from record import services
from shop.models import Device
from shop.serializers import Problem

from . import files
from .answer import answer
from .epoch import cursors
from .render import SyncRenderer
from .request import HALVE, UNREADABLE, Refused, SyncRequest, parse
from .serializers import ImportOut, SyncIn, SyncOut

log = logging.getLogger(__name__)

OTHER_PHONE = "This login was made for another record on this phone. What you record is kept; log in again."
BUSY = "The record is busy. Nothing was lost; the phone will try again."


class SyncView(APIView):
    renderer_classes = [SyncRenderer]

    @extend_schema(request=SyncIn, responses={200: SyncOut, 400: Problem, 401: Problem, 413: Problem, 503: Problem})
    def post(self, request):
        try:
            asked = parse(_body(request))
            if asked.dev != request.auth.device.dev:
                raise AuthenticationFailed(OTHER_PHONE)
            return Response(_sync(request, asked))
        except Refused as refusal:
            return Response({"error": refusal.sentence}, status=refusal.status)
        except OperationalError:
            log.exception("sync: the database did not answer in time")
            return Response({"error": BUSY}, status=503, headers={"Retry-After": "5"})


class ImportView(APIView):
    @extend_schema(request={"application/x-ndjson": str}, responses={200: ImportOut, 400: Problem, 401: Problem, 413: Problem, 503: Problem})
    def post(self, request):
        try:
            taken = files.take(_body(request), request.user, request.auth.device)
        except Refused as refusal:
            return Response({"error": files.TOO_BIG if refusal.status == 413 else refusal.sentence}, status=refusal.status)
        except files.Refused as refusal:
            return Response({"error": str(refusal)}, status=400)
        except OperationalError:
            log.exception("import: the database did not answer in time")
            return Response({"error": BUSY}, status=503, headers={"Retry-After": "5"})
        return Response({"stored": taken.stored, "known": taken.known, "aside": taken.aside, "says": taken.sentence})


def _sync(request, asked: SyncRequest) -> dict:
    device, person = request.auth.device, request.user
    things = asked.things()
    follow = cursors(person.shop, device, asked)  # before anything of this request fills the positions that a restore has emptied
    with transaction.atomic():  # one commit, since each one waits for the disk
        verdicts = services.ingest(device=device, person=person, things=things) if things or device.homeless else []
        # The phone counts what it is just sending; a verdict has taken that off its hands.
        _note(device, _waiting(request.headers.get("Halfthou-Waiting", "")) - len(things))
    return answer(person=person, device=device, verdicts=verdicts, follow=follow, brief=asked.brief)


def _note(device: Device, waiting: int) -> None:
    Device.objects.filter(pk=device.pk).update(last_sync=timezone.now(), waiting=max(waiting, 0))


def _waiting(said: str) -> int:
    return int(said) if said.isascii() and said.isdigit() and len(said) < 7 else 0


def _body(request) -> bytes:
    try:
        return request.body
    except RequestDataTooBig:
        raise Refused(413, HALVE) from None
    except UnreadablePostError:
        raise Refused(400, UNREADABLE) from None
