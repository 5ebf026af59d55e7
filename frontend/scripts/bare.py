"""Takes comments, docstrings and annotations out of Python source: {path: source} in on stdin, the same out on stdout.

The phone runs the same statements as the server, and what only people and type checkers read stays at home. Standard
library only.
"""

import ast
import json
import sys


def bare(source: str) -> str:
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef)):
            _drop_docstring(node)
        if isinstance(node, ast.FunctionDef):
            node.returns = None
            for argument in [*node.args.args, *node.args.kwonlyargs]:
                argument.annotation = None
    return ast.unparse(tree) + "\n"


def _drop_docstring(node: ast.Module | ast.ClassDef | ast.FunctionDef) -> None:
    first = node.body[0] if node.body else None
    if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str):
        node.body = node.body[1:] or ([] if isinstance(node, ast.Module) else [ast.Pass()])


if __name__ == "__main__":
    json.dump({path: bare(source) for path, source in json.load(sys.stdin).items()}, sys.stdout)
