"""Law: one review of a build at a time, and a killed one is taken over. A claim is a conditional update, not a lock held."""
from datetime import timedelta

from django.db.models import Q, QuerySet
from django.utils import timezone

from record.models import Build

# A review takes seconds. One that only seemed dead does no harm when it ends: a second run changes nothing.
ABANDONED = timedelta(seconds=30)


def waiting() -> QuerySet[Build]:
    """Builds that a review has not seen as they are, or whose review was killed."""
    return Build.objects.filter(Q(dirty=True, claimed=None) | Q(claimed__lt=timezone.now() - ABANDONED))


def claim(build_pk: int) -> Build | None:
    """The build as it stood when it was claimed, or None when there is nothing to do or another run has it."""
    # `dirty` ends here, so that whatever comes in during the review raises it again.
    if not waiting().filter(pk=build_pk).update(claimed=timezone.now(), dirty=False):
        return None
    return Build.objects.select_related("shop").get(pk=build_pk)


def release(build: Build) -> bool:
    """Ends the claim. True when something came in meanwhile."""
    Build.objects.filter(pk=build.pk, claimed=build.claimed).update(claimed=None)
    return Build.objects.filter(pk=build.pk, dirty=True).exists()


def give_back(build: Build) -> None:
    """Ends the claim of a review that failed: the build waits for the sweep."""
    Build.objects.filter(pk=build.pk, claimed=build.claimed).update(claimed=None, dirty=True)
