from drf_spectacular.utils import extend_schema
from rest_framework.permissions import AllowAny
from rest_framework.response import Response
from rest_framework.views import APIView

from . import services, throttle
from .models import DeviceToken
from .serializers import LoginAnswer, LoginProblem, LoginRequest, Problem

TOO_MANY = "Too many wrong passwords. Wait ten minutes, then try again."
INCOMPLETE = "The login lacks a name, a password or the phone’s number. Fill in both fields and try again."


class LoginView(APIView):
    authentication_classes: list = []
    permission_classes = [AllowAny]

    @extend_schema(request=LoginRequest, responses={200: LoginAnswer, 400: LoginProblem, 429: Problem}, auth=[])
    def post(self, request):
        asked = LoginRequest(data=request.data)
        if not asked.is_valid():
            return Response({"error": INCOMPLETE}, status=400)
        who = {"name": asked.validated_data["name"].strip().lower(), "address": request.META.get("REMOTE_ADDR", "")}
        if throttle.too_many(**who):
            return Response({"error": TOO_MANY}, status=429)
        try:
            token, row = services.log_in(**asked.validated_data)
        except services.BegunAfresh as refusal:
            return Response({"error": str(refusal), "afresh": True}, status=400)
        except services.Refused as refusal:
            throttle.failed(**who)
            return Response({"error": str(refusal)}, status=400)
        return Response(_answer(token, row))


class LogoutView(APIView):
    @extend_schema(request=None, responses={204: None, 401: Problem})
    def post(self, request):
        services.log_out(token=request.auth)
        return Response(status=204)


def _answer(token: str, row: DeviceToken) -> dict:
    person = row.person
    return {
        "token": token,
        "expires": int(row.expires.timestamp() * 1000),
        "person": {"id": person.slug, "name": person.name, "role": person.role},
        "shop": {"id": person.shop.slug, "name": person.shop.name},
    }
