"""Run one script of frontend/package.json with the Node that set-up chose: `frontend_task.py test`; what follows goes to the script."""

import sys

import frontend

if __name__ == "__main__":
    frontend.npm("run", "--silent", *sys.argv[1:2], "--", *sys.argv[2:], failed=f"the front end's `{sys.argv[1]}` found something, named above.")
