from django.db import migrations, models

# The invented shop's bench device: the number was minted for it, so no other shop can have it.
DEMO_BENCH = "7e12ab04c95d4f0e8b3366d1f0a9c217"


def say_which_is_the_demo(apps, schema_editor):
    """A demo that was loaded before shops said what they are."""
    alias = schema_editor.connection.alias
    device = apps.get_model("shop", "Device").objects.using(alias).filter(dev=DEMO_BENCH).first()
    if device is not None:
        apps.get_model("shop", "Shop").objects.using(alias).filter(pk=device.shop_id).update(demo=True)


class Migration(migrations.Migration):
    dependencies = [("shop", "0002_chains")]
    operations = [
        migrations.AddField("shop", "demo", models.BooleanField(default=False, editable=False)),
        migrations.RunPython(say_which_is_the_demo, migrations.RunPython.noop),
    ]
