from django.db import migrations, models

import shop.models


def a_key_each(apps, schema_editor):
    """A default is drawn once for all rows; each shop signs with a key of its own."""
    for row in apps.get_model("shop", "Shop").objects.using(schema_editor.connection.alias):
        row.mark_key = shop.models.new_key()
        row.save(update_fields=["mark_key"])


class Migration(migrations.Migration):
    dependencies = [("shop", "0001_initial")]
    operations = [
        migrations.AddField("device", "count", models.BigIntegerField(default=0, editable=False)),
        migrations.AddField("device", "homeless", models.BooleanField(default=False, editable=False)),
        migrations.AddField("device", "link", models.CharField(blank=True, default="", editable=False, max_length=64)),
        migrations.AddField("shop", "mark_key", models.CharField(default=shop.models.new_key, editable=False, max_length=64)),
        migrations.RunPython(a_key_each, migrations.RunPython.noop),
    ]
