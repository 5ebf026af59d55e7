import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from record import belonging, guard


def up(apps, schema_editor):
    conn = schema_editor.connection
    guard.install(conn)  # SQLite has just made the table anew, without its triggers
    if conn.vendor == "postgresql":
        belonging.install(conn)


def down(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        belonging.remove(schema_editor.connection)


class Migration(migrations.Migration):
    """Two indexes go that only cost: a build's events are found by its positions, and nobody asks for a person's."""

    dependencies = [("record", "0006_places"), migrations.swappable_dependency(settings.AUTH_USER_MODEL)]
    operations = [
        migrations.AlterField("event", "build", models.ForeignKey(
            db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name="events", to="record.build")),
        migrations.AlterField("event", "person", models.ForeignKey(
            db_index=False, on_delete=django.db.models.deletion.PROTECT, to=settings.AUTH_USER_MODEL)),
        migrations.RunPython(up, down),
    ]
