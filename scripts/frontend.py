"""The front end: Node (the machine's own, or from a PyPI wheel), its packages, and its build."""

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

from places import BACKEND, BIN, FRONTEND, say, stop, tool_env
from stamps import digest, files_under, is_fresh, remember

OLDEST_NODE = (20, 19)  # what the bundler asks for


def version_of(node: str) -> tuple[int, ...]:
    try:
        said = subprocess.run([node, "--version"], capture_output=True, text=True, timeout=30).stdout
    except (OSError, subprocess.TimeoutExpired):
        return (0,)
    return tuple(int(part) for part in re.findall(r"\d+", said)[:2]) or (0,)


def ensure_node(install: Callable[[str], None]) -> None:
    """After this `node` and `npm` are on the PATH that `tool_env` gives."""
    path = tool_env()["PATH"]
    node, npm = shutil.which("node", path=path), shutil.which("npm", path=path)
    if node and npm and version_of(node) >= OLDEST_NODE:
        return
    say("No Node.js 20.19 or newer here: taking one from the Python package index (about 60 MB) …")
    install("node")
    if version_of(str(BIN / "node")) < OLDEST_NODE:
        stop("Node.js from the package index does not start on this machine. Install Node.js 20.19 or newer and run again.")


def npm(*arguments: str, failed: str, quiet: bool = False) -> None:
    """Run npm in frontend/; a quiet run shows what it said only when it fails."""
    how = {"stdout": subprocess.PIPE, "stderr": subprocess.STDOUT, "text": True} if quiet else {}
    # Node from the wheel trusts only its own list of authorities unless told to use the machine's, as a firm's proxy may need.
    env = {"NODE_USE_SYSTEM_CA": "1"} | tool_env() | {"NPM_CONFIG_UPDATE_NOTIFIER": "false"}
    done = subprocess.run(["npm", *arguments], cwd=FRONTEND, env=env, **how)
    if done.returncode:
        if quiet:
            say(done.stdout)
        stop(failed)


def sources() -> list[Path]:
    """What the built app depends on: its own files and the kernel that it carries to the phone."""
    kept = ("*.json", "*.ts", "*.js", "*.mjs", "*.html")
    top = [p for pattern in kept for p in FRONTEND.glob(pattern)]
    return files_under(*sorted(top), FRONTEND / "src", FRONTEND / "public", FRONTEND / "scripts", BACKEND / "kernel")


def install_packages() -> None:
    key = digest([FRONTEND / "package.json", FRONTEND / "package-lock.json"])
    if is_fresh("npm", key, FRONTEND / "node_modules"):
        return
    say("Installing the front end's packages …")
    npm(
        "ci",
        "--no-audit",
        "--no-fund",
        "--loglevel=error",
        quiet=True,
        failed="npm could not install the front end's packages. Check the network and run again.",
    )
    remember("npm", key)


def build(install: Callable[[str], None]) -> None:
    if not (FRONTEND / "package-lock.json").exists():
        stop("frontend/package-lock.json is missing, so the front end cannot be built the same way twice. Restore it from the repository.")
    ensure_node(install)
    install_packages()
    key = digest(sources())
    if is_fresh("app", key, FRONTEND / "dist" / "index.html"):
        return
    say("Building the app …")
    npm("run", "--silent", "build", quiet=True, failed="the front end did not build; the reason is above.")
    remember("app", digest(sources()))
