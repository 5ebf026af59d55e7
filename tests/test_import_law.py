"""The import law: imports point one way, so the kernel can run on a phone and nothing can lean on the board.

board, review, sync -> record -> kernel;  catalogue -> kernel;  nothing imports board;  pint only in catalogue;
the kernel imports only itself and the few standard modules that both of its runtimes have.
"""

import ast
from pathlib import Path

BACKEND = Path(__file__).resolve().parents[1] / "backend"
PARTS = ("board", "catalogue", "config", "demo", "kernel", "record", "review", "shop", "sync")
IN_BOTH_RUNTIMES = {"__future__", "typing", "json", "math", "hashlib", "sys"}

# What each part may import of the others. `config` wires everything and `demo` fills everything, so both may look anywhere
# they must; views are reached from `config` alone.
MAY_IMPORT = {
    "kernel": {"kernel"},
    "catalogue": {"catalogue", "kernel"},
    "shop": {"shop"},
    "record": {"record", "kernel", "catalogue", "shop"},
    "sync": {"sync", "record", "kernel", "shop"},
    "review": {"review", "record", "kernel", "shop"},
    "board": {"board", "record", "kernel", "shop"},
    "demo": {"demo", "record", "catalogue", "kernel", "shop", "review", "sync"},
    "config": set(PARTS),
}
# Two files of config that import no part: they say what the environment and the database are, and any server part may ask.
LEAVES = {"config.env", "config.databases"}


def imported(source: str, package: str) -> list[tuple[int, str]]:
    """Every module a file imports anywhere in it, with the line, relative ones made absolute."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = package.split(".")
            base = base[: len(base) - node.level + 1] if node.level else []
            found.append((node.lineno, ".".join(base + ([node.module] if node.module else []))))
        elif isinstance(node, ast.Call) and ast.unparse(node.func) in (
            "__import__",
            "importlib.import_module",
            "import_module",
        ):
            if node.args and isinstance(node.args[0], ast.Constant):
                found.append((node.lineno, str(node.args[0].value)))
    return found


def breaches(backend: Path) -> list[str]:
    """Every breach of the law below a backend folder, as a sentence with file and line."""
    said = []
    for path in sorted(backend.rglob("*.py")):
        inside = path.relative_to(backend)
        part = inside.parts[0]
        if part not in MAY_IMPORT:
            continue
        for line, module in imported(path.read_text(), ".".join(inside.parent.parts)):
            why = objection(part, module)
            if why:
                said.append(f"{inside}:{line} imports {module}: {why}")
    return said


def objection(part: str, module: str) -> str:
    top = module.split(".")[0]
    if module in LEAVES and part not in ("kernel", "catalogue"):
        return ""
    if top == "board" and part not in ("board", "config"):
        return "nothing may lean on the board"
    if top in PARTS and top not in MAY_IMPORT[part]:
        return f"{part} may import only {', '.join(sorted(MAY_IMPORT[part]))}"
    if part == "kernel" and top != "kernel" and top not in IN_BOTH_RUNTIMES:
        return "the phone's runtime may not have it"
    if top == "pint" and part != "catalogue":
        return "unit factors come from the catalogue alone"
    return ""


def test_imports_point_one_way():
    assert len(list((BACKEND / "kernel").rglob("*.py"))) > 3, "the kernel was not found, so nothing was checked"
    found = breaches(BACKEND)
    assert not found, "\n".join(found)


def test_the_law_can_be_broken(tmp_path):
    """Each line below is a breach, and the check must say so: a check that passes everything is no law."""
    wrong = {
        "kernel/a.py": "import random",
        "kernel/b.py": "from record import services",
        "kernel/corrections/c.py": "from ...sync import push",
        "catalogue/d.py": "def late():\n    import record.models",
        "record/e.py": "from sync.views import SyncView",
        "record/f.py": "import importlib\nimportlib.import_module('review.tasks')",
        "sync/g.py": "import pint",
        "review/h.py": "from board import views",
        "demo/i.py": "import board",
        "shop/j.py": "from record import models",
    }
    right = {
        "kernel/ok.py": "from __future__ import annotations\nimport json, math\nfrom . import a\nfrom .corrections import c",
        "catalogue/ok.py": "import pint\nfrom kernel import quantity",
        "config/ok.py": "from board.views import BoardView",
        "record/ok.py": "from kernel.fold import fold\nimport django",
    }
    for name, source in (wrong | right).items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(source)
    named = {sentence.split(":")[0] for sentence in breaches(tmp_path)}
    assert named == set(wrong)
