"""What the environment says, read in one place. Nothing here touches Django."""
import os
import secrets
from pathlib import Path

REPO = Path(__file__).resolve().parent.parent.parent


def flag(name: str, default: bool = False) -> bool:
    return os.environ.get(name, "1" if default else "0").strip().lower() in {"1", "true", "yes", "on"}


def words(name: str, default: str) -> list[str]:
    return [w.strip() for w in os.environ.get(name, default).split(",") if w.strip()]


def data_folder() -> Path:
    """Where the SQLite file and the server's secret live. Made, readable by its owner only, when it is absent."""
    folder = Path(os.environ.get("HALFTHOU_DATA") or REPO / ".run")
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    return folder


def secret_key(folder: Path) -> str:
    """SECRET_KEY from the environment, else one made once and kept beside the data."""
    given = os.environ.get("SECRET_KEY")
    if given:
        return given
    kept = folder / "secret_key"
    try:
        with os.fdopen(os.open(kept, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
            file.write(secrets.token_urlsafe(48))
    except FileExistsError:
        pass
    return kept.read_text()
