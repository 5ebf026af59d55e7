"""Throw the demo shop's database away and load it again. Phones that were logged in must log in again."""

import serve
from places import RUN, say


def main() -> None:
    for path in RUN.glob("*.sqlite3*"):
        path.unlink()
    env = serve.server_env()
    serve.manage(env, "migrate", "--verbosity", "0")
    say(serve.manage(env, "demo_load"))


if __name__ == "__main__":
    main()
