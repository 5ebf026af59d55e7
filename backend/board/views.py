from django.http import Http404
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import extend_schema
from rest_framework.response import Response
from rest_framework.views import APIView

from record import procedures
from record.selectors import visible_builds
from shop.serializers import Problem

from . import status
from .serializers import BoardOut, ProcedureLine, SheetOut
from .sheet import sheet


class BoardView(APIView):
    @extend_schema(responses={200: BoardOut, 304: None, 401: Problem})
    def get(self, request):
        tag = status.stamp(request.user)
        headers = {"ETag": tag, "Vary": "Authorization"}
        if request.headers.get("If-None-Match", "").removeprefix("W/") == tag:
            return Response(status=304, headers=headers)
        return Response(status.board(request.user), headers=headers)


class SheetView(APIView):
    @extend_schema(responses={200: SheetOut, 401: Problem, 404: Problem})
    def get(self, request, build: str):
        found = visible_builds(request.user).select_related("status").filter(key=build).first()
        if found is None:
            raise Http404
        return Response(sheet(found, request.user))


class ProceduresView(APIView):
    @extend_schema(responses={200: ProcedureLine(many=True), 401: Problem})
    def get(self, request):
        return Response([_line(p) for p in procedures.newest()])


class ProcedureView(APIView):
    @extend_schema(responses={200: OpenApiTypes.OBJECT, 401: Problem, 404: Problem})
    def get(self, request, procedure: str, revision: int):
        compiled = procedures.procedure(procedure, revision)
        if compiled is None:
            raise Http404
        # A revision never changes, so the phone may keep it as long as it likes.
        return Response(compiled, headers={"ETag": f'"{compiled["digest"]}"',
                                           "Cache-Control": "private, max-age=31536000, immutable"})


def _line(compiled: dict) -> dict:
    return {"id": compiled["procedure"], "revision": compiled["revision"], "title": compiled["title"],
            "digest": compiled["digest"]}
