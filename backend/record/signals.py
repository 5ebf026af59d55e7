"""Sent after the commit that changed a build. Whoever reviews listens; the record does not know who."""
from django.dispatch import Signal

build_changed = Signal()
