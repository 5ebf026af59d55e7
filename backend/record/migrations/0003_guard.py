from django.db import migrations

from record import guard


def up(apps, schema_editor):
    guard.install(schema_editor.connection)


def down(apps, schema_editor):
    guard.remove(schema_editor.connection)


class Migration(migrations.Migration):
    """The database refuses to change or delete what happened."""

    dependencies = [("record", "0002_initial")]
    operations = [migrations.RunPython(up, down)]
