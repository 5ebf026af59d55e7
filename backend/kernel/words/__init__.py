"""What the kernel says, one table a language.

Law: every table has the same keys and each sentence the same places to fill; a test holds them to it.
"""
from __future__ import annotations

from . import de, en, findings_de, findings_en, offers_de, offers_en, refusals_de, refusals_en

LANGUAGES = {"en": en.SAID | findings_en.SAID | offers_en.SAID | refusals_en.SAID,
             "de": de.SAID | findings_de.SAID | offers_de.SAID | refusals_de.SAID}
EVERYDAY = "en"


def said_in(language: str) -> dict:
    """The table of a language; the everyday one where it is not known."""
    return LANGUAGES[language] if language in LANGUAGES else LANGUAGES[EVERYDAY]
