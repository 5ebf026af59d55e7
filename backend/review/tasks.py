"""The jobs. A lost message is found by the sweep; one that comes twice or late finds nothing left to do."""
import logging

from celery import shared_task
from django.db import transaction

from record.services import adopt_waiting

from .ask import ask
from .claim import claim, give_back, release, waiting
from .project import project

log = logging.getLogger(__name__)


def send(sender=None, *, build_pk: int, **_) -> None:
    """Asks for a review. The event is already safe, so a broker that is away must not spoil the answer to the phone."""
    try:
        review_build.delay(build_pk)
    except Exception:
        log.warning("review: no broker; the sweep will find build %s", build_pk, exc_info=True)


@shared_task
def review_build(build_pk: int) -> bool:
    """Whether this run did the review. Rules live in the kernel; its answer is stored whole."""
    build = claim(build_pk)
    if build is None:
        return False
    try:
        answer = ask(build)
        with transaction.atomic():
            project(build=build, answer=answer)
            changed_since = release(build)
    except Exception:
        give_back(build)
        raise
    if changed_since:
        send(build_pk=build_pk)
    return True


@shared_task
def sweep() -> int:
    """Sends a review for every build that waits for one. How many there were."""
    adopt_waiting()
    found = list(waiting().values_list("pk", flat=True))
    for pk in found:
        send(build_pk=pk)
    return len(found)
