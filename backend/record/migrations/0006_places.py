from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("record", "0005_seal_what_is_there")]
    operations = [
        migrations.AlterField("event", "place", models.BigIntegerField()),
        migrations.AddConstraint("event", models.UniqueConstraint(fields=("dev", "place"), name="one_event_a_place")),
    ]
