"""A Chromium for the browser tests: the one on PATH, the distribution's when we are root, or Playwright's own."""

import os
import shutil
import subprocess

from places import say, stop, tool_env, venv_python

NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")


def on_path() -> str | None:
    named = os.environ.get("HALFTHOU_CHROMIUM")
    return named or next((found for name in NAMES if (found := shutil.which(name))), None)


def bundled() -> str | None:
    """Where Playwright keeps its own browser, when it has been fetched."""
    ask = "from playwright.sync_api import sync_playwright as s\nwith s() as p: print(p.chromium.executable_path)"
    said = subprocess.run([str(venv_python()), "-c", ask], env=tool_env(), capture_output=True, text=True)
    path = said.stdout.strip()
    return path if said.returncode == 0 and os.path.exists(path) else None


def from_distribution() -> bool:
    if not hasattr(os, "geteuid") or os.geteuid() != 0 or not shutil.which("apt-get"):
        return False
    say("Installing Chromium from the distribution …")
    env = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    install = ["apt-get", "install", "-y", "-qq", "--no-install-recommends", "chromium"]
    if subprocess.run(install, env=env, stdout=subprocess.DEVNULL).returncode == 0:
        return True
    subprocess.run(["apt-get", "update", "-qq"], env=env, stdout=subprocess.DEVNULL)
    return subprocess.run(install, env=env, stdout=subprocess.DEVNULL).returncode == 0


def ensure() -> None:
    if on_path() or bundled():
        return
    if from_distribution() and on_path():
        return
    say("Fetching Playwright's own Chromium …")
    if subprocess.run([str(venv_python()), "-m", "playwright", "install", "chromium"], env=tool_env()).returncode:
        stop("no Chromium could be found or fetched for the browser tests. Install one and set HALFTHOU_CHROMIUM to its path.")
