from django.db import migrations

from record import chain, guard


def up(apps, schema_editor):
    """Seals every stored event. Heads that were printed stay what they are: a build begun before keeps chaining bare hashes
    up to its present head, and seals from there on.
    """
    def rows(app, name):
        return apps.get_model(app, name)._default_manager.using(schema_editor.connection.alias)

    events, builds, devices = rows("record", "Event"), rows("record", "Build"), rows("shop", "Device")
    guard.remove(schema_editor.connection)
    links: dict[str, tuple[int, str]] = {}
    for row in events.order_by("pk").iterator(chunk_size=500):
        place, link = links.get(row.dev, (0, ""))
        row.place = place + 1
        row.seal = chain.seal(row)
        row.link = chain.next_link(link, row.seal)
        links[row.dev] = (row.place, row.link)
        row.save(update_fields=["place", "seal", "link"])
    for build in builds.all():
        _chain(events, build)
    for dev, (count, link) in links.items():
        devices.filter(dev=dev).update(count=count, link=link)
    waiting = rows("record", "Quarantine").filter(kind="no_build")
    devices.filter(pk__in=waiting.values("device")).update(homeless=True)
    guard.install(schema_editor.connection)


def _chain(events, build):
    head = ""
    for row in events.filter(build=build).order_by("seq").iterator(chunk_size=500):
        head = row.chain = chain.next_link(head, row.hash)
        row.save(update_fields=["chain"])
    build.sealed_from = build.head + 1
    build.save(update_fields=["sealed_from"])


class Migration(migrations.Migration):
    dependencies = [("record", "0004_chains")]
    operations = [migrations.RunPython(up, migrations.RunPython.noop)]
