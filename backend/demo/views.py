"""The demo shop begun afresh from a phone. For a shop that people work in, this address is not there at all."""
from django.http import Http404
from drf_spectacular.utils import extend_schema
from rest_framework import serializers
from rest_framework.exceptions import PermissionDenied
from rest_framework.response import Response
from rest_framework.views import APIView

from record.models import Build, Event
from shop.models import Role, Shop
from shop.serializers import Problem

from .reset import begin_afresh

OWNERS = "Only the owner may begin the demo shop afresh. Ask the owner."


class DemoOut(serializers.Serializer):
    builds = serializers.IntegerField()
    entries = serializers.IntegerField()


class ResetOut(serializers.Serializer):
    entries = serializers.IntegerField(help_text="how many were set aside")


class DemoView(APIView):
    @extend_schema(responses={200: DemoOut, 401: Problem, 403: Problem, 404: Problem})
    def get(self, request):
        """What would be lost from sight."""
        shop = _own_demo(request)
        builds = Build.objects.filter(shop=shop)
        return Response({"builds": builds.count(), "entries": Event.objects.filter(build__in=builds).count()})

    @extend_schema(request=None, responses={200: ResetOut, 401: Problem, 403: Problem, 404: Problem})
    def post(self, request):
        return Response({"entries": begin_afresh(_own_demo(request))})


def _own_demo(request) -> Shop:
    shop = request.user.shop
    if not shop.demo:
        raise Http404
    if request.user.role != Role.OWNER:
        raise PermissionDenied(OWNERS)
    return shop
