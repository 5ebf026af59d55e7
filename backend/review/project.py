"""Law: a projection is replaced whole in one transaction, and an older review never covers a newer one."""
import json

from django.db import transaction

from record.models import Build, BuildStatus, Reading

LARGEST = 2**63 - 1


@transaction.atomic
def project(*, build: Build, answer: dict) -> bool:
    """Stores what the kernel said of the build at `build.head`. False when a later review is there already."""
    Build.objects.select_for_update().get(pk=build.pk)
    before = BuildStatus.objects.filter(build=build).first()
    if before and before.seq > build.head:
        return False
    BuildStatus.objects.update_or_create(build=build, defaults={
        "seq": build.head, "head_hash": build.head_hash, "answer": json.dumps(_told(build, answer, before)),
    })
    Reading.objects.filter(build=build).delete()
    Reading.objects.bulk_create(_readings(build, answer["readings"]), batch_size=500)
    return True


def _told(build: Build, answer: dict, before: BuildStatus | None) -> dict:
    return {
        "overview": answer["overview"],
        "findings": answer["findings"],
        "fits": answer["fits"],
        "holds": _since(build, answer["holds"], before),
        "devices": sorted(set(build.events.filter(seq__lte=build.head).values_list("dev", flat=True))),
    }


def _since(build: Build, holds: list[dict], before: BuildStatus | None) -> list[dict]:
    """When each hold was first seen, ms since 1970: carried over from the review before."""
    known = {(h["step"], h["title"]): h["since"] for h in before.said["holds"]} if before else {}
    now = int(build.last_event.timestamp() * 1000) if build.last_event else 0
    return [hold | {"since": known.get((hold["step"], hold["title"]), now)} for hold in holds]


def _readings(build: Build, readings: list[dict]) -> list[Reading]:
    seqs = dict(_ids(build))
    return [Reading(
        build=build, seq=seqs[r["event"]], event=r["event"], spot=_cut(r["spot"], 120),
        point=_cut(r["point"], 80), station=_cut(r["station"], 40), value=_stored(r["value"]),
        text=_cut(r["text"], 80), unit=_cut(r["unit"], 20), who=_cut(r["who"], 40), at=r["at"],
        counts=bool(r["counts"]), struck=bool(r["struck"]),
    ) for r in readings]


def _ids(build: Build):
    for dev, n, seq in build.events.values_list("dev", "n", "seq"):
        yield f"{dev}:{n}", seq


def _stored(value: int | None) -> int | None:
    return value if value is not None and abs(value) <= LARGEST else None


def _cut(text: str, most: int) -> str:
    """Fits a column: the event keeps the text as it was typed."""
    return text.replace("\x00", "")[:most]
