"""Changes the guarding code in small ways, one at a time, and sees whether the tests notice: `python -m tests.mutants [how many] [file …]`.

Django, the test database and the suites are loaded once; each mutant is a child of that process with one function
changed, so a mutant costs a second or two. Survivors are listed; those that are explained lie in tests/mutants.json with
the reason, by `<file>: <the line>: <the change>`.
"""

from __future__ import annotations

import ast
import copy
import os
import random
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
BACKEND = ROOT / "backend"
FILES = (
    "sync/request.py", "sync/epoch.py", "sync/answer.py", "sync/render.py", "sync/files.py", "sync/views.py", "record/intake.py", "record/services.py",
    "record/carry.py", "record/chain.py", "record/orphans.py", "record/verify.py", "record/shape.py", "record/selectors.py", "record/rows.py",
    "record/guard.py", "shop/services.py", "shop/tokens.py", "shop/throttle.py", "review/claim.py", "review/project.py",
)  # fmt: skip
SUITES = ("tests/sync", "tests/record", "tests/shop", "tests/review/test_review.py", "tests/review/test_to_the_letter.py")
LEFT_OUT = ("tests/record/test_backup.py", "tests/record/test_migration.py")
# It fails wherever the module is loaded anew, changed or not: the schema's generator knows the class it first met.
BLIND = "tests/shop/test_login_to_the_letter.py::test_the_schema_says_how_a_phone_shows_its_token"

SWAPS: dict[type, type] = {
    ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Add: ast.Sub, ast.Sub: ast.Add, ast.And: ast.Or, ast.Or: ast.And, ast.BitOr: ast.BitAnd,
}  # fmt: skip


def mutants(source: str) -> list[tuple[int, str, str]]:
    """`(line, what, changed source)` for every small change there is to make."""
    out = []
    tree = ast.parse(source)
    unread = not_run(tree)
    for index, node in enumerate(ast.walk(tree)):
        for what, change in () if node in unread else changes(node):
            other = copy.deepcopy(tree)
            change(list(ast.walk(other))[index])
            out.append((getattr(node, "lineno", 0), what, ast.unparse(ast.fix_missing_locations(other))))
    return out


def not_run(tree: ast.AST) -> set[ast.AST]:
    """What no request ever runs: annotations, and what only the published schema says."""
    roots: list[ast.AST | None] = []
    for node in ast.walk(tree):
        roots += [getattr(node, "annotation", None), getattr(node, "returns", None)]
        roots += [d for d in getattr(node, "decorator_list", ()) if "extend_schema" in ast.unparse(d)]
    return {node for root in roots if root is not None for node in ast.walk(root)}


def changes(node: ast.AST):
    if isinstance(node, ast.Compare) and len(node.ops) == 1 and type(node.ops[0]) in SWAPS:
        to = SWAPS[type(node.ops[0])]
        yield f"{type(node.ops[0]).__name__} to {to.__name__}", lambda n: n.ops.__setitem__(0, to())
    if isinstance(node, (ast.BinOp, ast.BoolOp, ast.AugAssign)) and type(node.op) in SWAPS:
        to_ = SWAPS[type(node.op)]
        yield f"{type(node.op).__name__} to {to_.__name__}", lambda n: setattr(n, "op", to_())
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield "not left out", lambda n: (setattr(n, "op", ast.Not()), setattr(n, "operand", ast.UnaryOp(ast.Not(), n.operand)))
    if isinstance(node, ast.Constant) and type(node.value) is bool:
        yield f"{node.value} to {not node.value}", lambda n: setattr(n, "value", not n.value)
    if isinstance(node, ast.Constant) and type(node.value) is int:
        yield f"{node.value} to {node.value + 1}", lambda n: setattr(n, "value", n.value + 1)
    if isinstance(node, ast.If):
        yield "if to always", lambda n: setattr(n, "test", ast.Constant(True))
        yield "if to never", lambda n: setattr(n, "test", ast.Constant(False))
    if isinstance(node, ast.Return) and node.value is not None and not isinstance(node.value, ast.Constant):
        yield "returns None", lambda n: setattr(n, "value", ast.Constant(None))


def apply(file: str, source: str) -> None:
    """Puts the changed code in place of the module's own, in this process."""
    name = file.removesuffix(".py").replace("/", ".")
    module = sys.modules[name]
    before = dict(vars(module))
    exec(compile(source, str(BACKEND / file), "exec"), vars(module))
    own = {key: value for key, value in before.items() if getattr(value, "__module__", None) == name}
    for key, value in own.items():
        if isinstance(value, type):  # some hold the class itself, as an address holds its view
            for part, new in list(vars(vars(module)[key]).items()):
                if callable(new) and not part.startswith("__"):
                    setattr(value, part, new)
                    if "__class__" in getattr(getattr(new, "__code__", None), "co_freevars", ()):  # its super() must go on from the class it is in now
                        new.__closure__[new.__code__.co_freevars.index("__class__")].cell_contents = value
                        setattr(module, key, value)
    # Others hold the old functions and classes by name: they get the new ones.
    for other in list(sys.modules.values()):
        for key, value in list(getattr(other, "__dict__", {}).items()):
            if key in own and value is own[key]:
                setattr(other, key, vars(module)[key])


def chosen() -> list[tuple[str, int, str, str]]:
    """All, or those of the files that were named; so many of them, if a number was given."""
    most, files = int(os.environ["MUTANTS"] or 0), os.environ["MUTANTS_IN"].split()
    found = [(file, *m) for file in FILES if not files or file in files for m in mutants((BACKEND / file).read_text())]
    return random.Random(1).sample(found, most) if 0 < most < len(found) else found


def main(most: int | None, files: list[str]) -> int:
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as data:
        env = os.environ | {"HALFTHOU_DATA": data, "DATABASE_URL": "", "MUTANTS": str(most or ""), "MUTANTS_IN": " ".join(files), "VERIFY_MUTATIONS": "300"}
        left = [arg for path in LEFT_OUT for arg in ("--ignore", path)]
        command = [sys.executable, "-m", "pytest", "-q", "-s", "-p", "tests.mutant_plugin", "-p", "no:cacheprovider", *SUITES, *left, "--deselect", BLIND]
        return subprocess.run(command, cwd=ROOT, env=env).returncode


if __name__ == "__main__":
    number = [int(arg) for arg in sys.argv[1:] if arg.isdigit()]
    sys.exit(main(number[0] if number else None, [arg for arg in sys.argv[1:] if not arg.isdigit()]))
