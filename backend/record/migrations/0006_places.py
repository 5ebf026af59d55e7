from django.db import migrations, models

from record import guard


def guard_up(apps, schema_editor):
    """SQLite has just made the table anew, without its triggers."""
    guard.install(schema_editor.connection)


class Migration(migrations.Migration):
    dependencies = [("record", "0005_seal_what_is_there")]
    operations = [
        migrations.AlterField("event", "place", models.BigIntegerField()),
        migrations.AddConstraint("event", models.UniqueConstraint(fields=("dev", "place"), name="one_event_a_place")),
        migrations.RunPython(guard_up, migrations.RunPython.noop),
    ]
