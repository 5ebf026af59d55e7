"""Set up what a target needs, and nothing twice: `python3 scripts/setup.py [run|test|node]`.

Only the standard library, because nothing else is there yet.
  venv  the virtual environment and the packages the server needs
  run   the above, Node where it is missing, the front end's packages and its build
  test  the above, the test packages and a browser
"""

import os
import shutil
import subprocess
import sys

from places import ROOT, VENV, say, stop, tool_env, venv_python
from stamps import digest, forget, is_fresh, remember

OLDEST_PYTHON = (3, 11)


def use_a_new_enough_python() -> None:
    """Start again under a newer Python when the one that `make` found is too old."""
    if sys.version_info >= OLDEST_PYTHON:
        return
    for name in ("python3.13", "python3.12", "python3.11", "python3.14"):
        if shutil.which(name):
            os.execvp(name, [name, *sys.argv])
    found = "{}.{}".format(*sys.version_info[:2])
    stop(f"Halfthou needs Python 3.11 or newer and found {found}. Install one, or name it: make PYTHON=/path/to/python3.11 run")


def make_venv() -> None:
    wanted = "{}.{}".format(*sys.version_info[:2])
    if venv_python().exists() and is_fresh("venv", wanted, VENV):
        return
    if venv_python().exists() and (VENV / "bin" / "pip").exists():
        remember("venv", wanted)
        return
    say("Making a virtual environment in .venv …")
    made = subprocess.run([sys.executable, "-m", "venv", str(VENV)], capture_output=True, text=True)
    if made.returncode:
        stop("Python could not make a virtual environment. On Debian and Ubuntu: apt install python3-venv. It said:\n" + made.stdout + made.stderr)
    for name in ("packages-server", "packages-test", "packages-node"):
        forget(name)
    remember("venv", wanted)


def listed(extra: str) -> list[str]:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    return project["dependencies"] if extra == "server" else project["optional-dependencies"][extra]


def install(extra: str) -> None:
    """Install one list of pyproject.toml into the virtual environment."""
    wanted = listed(extra)
    key = digest([], *wanted)
    if is_fresh("packages-" + extra, key, venv_python()):
        return
    say(f"Installing {len(wanted)} {extra} packages …")
    command = [str(venv_python()), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *wanted]
    if subprocess.run(command, env=tool_env()).returncode:
        stop("pip could not install the packages named above. Check the network and run the same command again.")
    remember("packages-" + extra, key)


def main(what: str) -> None:
    use_a_new_enough_python()
    make_venv()
    install("server")
    if what == "venv":
        return
    if what == "lint":
        return install("test")
    import frontend

    frontend.build(install)
    if what == "test":
        install("test")
        import browser

        browser.ensure()


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "run")
