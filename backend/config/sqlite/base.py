"""Django's SQLite, with a fair wait for the turn to write.

SQLite's own wait backs off to a tenth of a second while others take the lock within microseconds of its being free, so among
many writers one may use up its whole patience. Here everybody asks again after the same few milliseconds.
"""
import random
import time

from django.db import OperationalError
from django.db.backends.sqlite3 import base

AGAIN_SECONDS = 0.005


class DatabaseWrapper(base.DatabaseWrapper):
    def _start_transaction_under_autocommit(self) -> None:
        patience = self.settings_dict["OPTIONS"]["timeout"]
        end = time.monotonic() + patience
        self.connection.execute("PRAGMA busy_timeout = 0")
        try:
            while not self._begun(last=time.monotonic() > end):
                time.sleep(AGAIN_SECONDS * random.uniform(0.5, 1.5))
        finally:
            self.connection.execute(f"PRAGMA busy_timeout = {int(patience * 1000)}")

    def _begun(self, *, last: bool) -> bool:
        try:
            super()._start_transaction_under_autocommit()
        except OperationalError as problem:
            if last or "database is locked" not in str(problem):
                raise
            return False
        return True
