"""A figure of a fit or a reading as digits, in this person's unit."""
from __future__ import annotations

from ..show import scale_of
from .lens import Lens


def amount(lens: Lens, fit_name: str, value: int) -> str:
    """A figure of this fit without its unit."""
    spec = lens.procedure["fits"][fit_name]
    return lens.shown.figure(value, lens.shown.unit(spec["dimension"], scale_of(spec)))


def reading_figure(lens: Lens, point: dict, reading: dict) -> str:
    """A reading's digits: as typed where it was typed in this person's unit, else converted."""
    unit = lens.shown.unit(point["dimension"], scale_of(point))
    return reading["text"] if reading["unit"] == unit else lens.shown.figure(reading["value"], unit)
