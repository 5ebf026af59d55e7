from django.apps import AppConfig


class ReviewConfig(AppConfig):
    name = "review"

    def ready(self) -> None:
        from record.signals import build_changed

        from .tasks import send

        build_changed.connect(send, dispatch_uid="review-on-change")
