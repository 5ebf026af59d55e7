"""Errors leave the server as one sentence: `{"error": "…"}`."""
from django.http import JsonResponse
from django.views.decorators.csrf import csrf_exempt
from rest_framework import exceptions
from rest_framework.response import Response
from rest_framework.views import exception_handler

MISSING = "There is no such thing here."


def as_sentence(problem: Exception, context: dict) -> Response | None:
    """DRF's handler. Whatever the framework calls it, the person reads what happened and what to do."""
    answer = exception_handler(problem, context)
    if answer is not None:
        answer.data = {"error": _sentence(problem, answer)}
    return answer


def _sentence(problem: Exception, answer: Response) -> str:
    if answer.status_code == 404:
        return MISSING
    if isinstance(problem, exceptions.ParseError):
        return "The request is not readable JSON. Send it again whole."
    if isinstance(problem, exceptions.NotAuthenticated):
        return "This phone is not logged in. What you record is kept; log in at the next quiet moment."
    detail = getattr(problem, "detail", None)
    return str(detail) if isinstance(detail, str) else "The request could not be answered. Check what was sent."


@csrf_exempt
def no_such_address(request, **_):
    return JsonResponse({"error": MISSING}, status=404)
