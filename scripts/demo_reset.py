"""Set aside what was recorded in the demo shop and begin it afresh. Phones must log in again."""

import serve
from places import say


def main() -> None:
    env = serve.server_env()
    serve.manage(env, "migrate", "--verbosity", "0")
    say(serve.manage(env, "demo_reset", "--skip-checks"))


if __name__ == "__main__":
    main()
