"""Serve the demo shop: `make run` over http, `make run-lan` over https with a certificate from a local authority.

Runs inside the virtual environment, after setup.py. Data lives in `.run/`; the demo is loaded once and not touched again.
"""

import os
import signal
import socket
import subprocess
import sys
import threading
import time
from pathlib import Path

import stamps
from places import BACKEND, RUN, say, stop, tool_env, venv_python


def lan_address() -> str:
    """This machine's address on the local network; nothing is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
            return probe.getsockname()[0]
        except OSError:
            return "127.0.0.1"


def chosen_port(default: int) -> int:
    text = os.environ.get("PORT") or str(default)
    if not text.isdigit() or not 1 <= int(text) <= 65535:
        stop(f"PORT is {text!r}, which is not a port number. Use one from 1 to 65535: PORT=8123 make run")
    return int(text)


def refuse_a_taken_port(port: int) -> None:
    with socket.socket() as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind(("0.0.0.0", port))
        except OSError as why:
            stop(f"port {port} cannot be used ({why.strerror}). Choose another: PORT={port + 100} make run")


def server_env() -> dict[str, str]:
    RUN.mkdir(exist_ok=True)
    env = tool_env()
    env.setdefault("HALFTHOU_DATA", str(RUN))
    env.setdefault("ALLOWED_HOSTS", "*")
    return env


def manage(env: dict[str, str], *arguments: str) -> str:
    done = subprocess.run([str(venv_python()), "manage.py", *arguments], cwd=BACKEND, env=env, stdout=subprocess.PIPE, text=True)
    if done.returncode:
        stop(f"`manage.py {' '.join(arguments)}` failed; the reason is above. `make demo-reset` starts the demo shop again from nothing.")
    return done.stdout.strip()


def prepare_data(env: dict[str, str]) -> str:
    """Bring the database up to date with the demo in it; returns who can log in. Skipped when neither code nor data changed."""
    key, kept = stamps.digest(stamps.files_under(BACKEND), env["HALFTHOU_DATA"], env.get("DATABASE_URL", "")), RUN / "people.txt"
    database = Path(env["HALFTHOU_DATA"]) / "halfthou.sqlite3"
    if "DATABASE_URL" not in env and stamps.is_fresh("data", key, database, kept):
        return kept.read_text()
    say("Bringing the record up to date and loading the demo shop …")
    manage(env, "migrate", "--verbosity", "0")
    people = manage(env, "demo_load", "--skip-checks")
    manage(env, "review_sweep", "--skip-checks")  # jobs run inline here, so no beat looks for builds left unreviewed by a power cut
    kept.write_text(people)
    stamps.remember("data", key)
    return people


def show_qr(url: str) -> None:
    import segno

    say(f"\n  Scan with a phone on the same network: {url}")
    segno.make(url, error="l").terminal(compact=True, border=2)


def announce(url: str, lan_url: str, people: str) -> None:
    say(f"\n  Halfthou is at      {url}")
    if lan_url != url:
        say(f"  from the network at {lan_url}")
    if people:
        say("\n" + "\n".join("  " + line for line in people.splitlines()))
    if sys.stdout.isatty() or os.environ.get("HALFTHOU_QR") != "0":
        show_qr(lan_url)


def warn_about_plain_http() -> None:
    say("  *** NOT OFFLINE-SAFE on a phone: a browser keeps an app for offline use only over https. ***")
    say("  *** On this computer (localhost) it is safe. For phones stop this and use: make run-lan.  ***\n")


def when_up(port: int, then) -> None:
    """Call `then` once the port answers, so that an address is never printed before it works."""

    def watch():
        for _ in range(600):
            try:
                socket.create_connection(("127.0.0.1", port), 0.2).close()
                return then()
            except OSError:
                time.sleep(0.1)

    threading.Thread(target=watch, daemon=True).start()


def serve(env: dict[str, str], port: int, *more: str) -> int:
    command = [str(venv_python()), "-m", "uvicorn", "config.asgi:application", "--host", "0.0.0.0", "--port", str(port),
               "--log-level", "warning", "--timeout-graceful-shutdown", "2", *more]  # fmt: skip
    server = subprocess.Popen(command, cwd=BACKEND, env=env)
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda *_: server.terminate())
    code = server.wait()
    return 0 if code in (-signal.SIGTERM, -signal.SIGINT) else code


def main(lan: bool) -> int:
    port = chosen_port(8443 if lan else 8000)
    refuse_a_taken_port(port)
    env, address = server_env(), lan_address()
    scheme = "https" if lan else "http"
    env.setdefault("CSRF_TRUSTED_ORIGINS", f"{scheme}://{address}:{port},{scheme}://localhost:{port}")
    people = prepare_data(env)
    more: list[str] = []
    if lan:
        import authority
        import authority_page

        key, leaf = authority.certificate_for(RUN / "authority", address)
        more = ["--ssl-keyfile", str(key), "--ssl-certfile", str(leaf)]
        refuse_a_taken_port(port + 1)
        authority_page.serve(RUN / "authority" / "authority.crt", port + 1, f"https://{address}:{port}")

    def ready():
        announce(f"{scheme}://localhost:{port}", f"{scheme}://{address}:{port}", people)
        if lan:
            authority_page.explain(f"http://{address}:{port + 1}")
        else:
            warn_about_plain_http()
        say("  Ctrl-C stops it.")

    when_up(port, ready)
    return serve(env, port, *more)


if __name__ == "__main__":
    sys.exit(main(lan="lan" in sys.argv[1:]))
