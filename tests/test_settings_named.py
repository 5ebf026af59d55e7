"""Every setting the server and its entry commands read from the environment is named in docs/operate/settings.md."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
IN_PYTHON = re.compile(r"""(?:environ(?:\.get\(|\[)|getenv\(|flag\(|words\(|number\(|text\()\s*["']([A-Z][A-Z0-9_]+)["']""")
IN_SHELL = re.compile(r"\$\{([A-Z][A-Z0-9_]+)")


def read_by_server() -> set[str]:
    found = set()
    for path in (ROOT / "backend" / "config").rglob("*.py"):
        found |= set(IN_PYTHON.findall(path.read_text()))
    for path in [*(ROOT / "docker").glob("*.sh"), *(ROOT / "docker").glob("*.yaml")]:
        found |= set(IN_SHELL.findall(path.read_text()))
    return found


def test_every_setting_is_named():
    page = (ROOT / "docs" / "operate" / "settings.md").read_text()
    read = read_by_server()
    assert {"DATABASE_URL", "HALFTHOU_JOBS", "SECRET_KEY", "PORT"} <= read, "the search no longer finds settings that are surely read"
    missing = sorted(name for name in read if f"`{name}`" not in page)
    assert not missing, "docs/operate/settings.md does not name: " + ", ".join(missing)


def test_the_page_names_nothing_that_is_not_read():
    page = (ROOT / "docs" / "operate" / "settings.md").read_text()
    tests_and_scripts = " ".join(p.read_text() for d in ("scripts", "tests/services") for p in (ROOT / d).rglob("*.py"))
    named = set(re.findall(r"^\| `([A-Z][A-Z0-9_]+)`", page, re.M))
    stale = sorted(n for n in named - read_by_server() if n not in tests_and_scripts)
    assert not stale, "docs/operate/settings.md names settings that nothing reads: " + ", ".join(stale)
