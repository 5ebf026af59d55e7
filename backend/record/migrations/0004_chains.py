from django.db import migrations, models


class Migration(migrations.Migration):
    """Columns for seals and chains; 0005 fills them for what is stored already."""

    dependencies = [("record", "0003_guard"), ("shop", "0002_chains")]
    operations = [
        migrations.AddField("build", "sealed_from", models.BigIntegerField(default=1)),
        migrations.AddField("event", "carried", models.CharField(blank=True, default="", max_length=40)),
        migrations.AddField("event", "chain", models.CharField(default="", max_length=64), preserve_default=False),
        migrations.AddField("event", "link", models.CharField(default="", max_length=64), preserve_default=False),
        migrations.AddField("event", "place", models.BigIntegerField(null=True)),
        migrations.AddField("event", "seal", models.CharField(default="", max_length=64), preserve_default=False),
        migrations.AddField("quarantine", "carried", models.CharField(blank=True, default="", max_length=40)),
        migrations.AddField("quarantine", "role", models.CharField(blank=True, default="", max_length=12)),
    ]
