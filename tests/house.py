"""Read the project's own modules: their syntax trees, names and imports."""

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def sources(*folders: str) -> list[Path]:
    """List the modules of these folders; each must have some, or what is asked of all would hold of none."""
    found = {folder: sorted((ROOT / folder).rglob("*.py")) for folder in folders}
    assert all(found.values()), f"no modules in {[folder for folder, paths in found.items() if not paths]}"
    return sorted(path for paths in found.values() for path in paths)


def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def module_of(path: Path) -> str:
    """Name a file as the package does: analysis.events.find, and analysis.events for its __init__."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def where(path: Path, node: ast.AST) -> str:
    return f"{path.relative_to(ROOT)}:{getattr(node, 'lineno', 1)}"


def named(tree: ast.Module) -> Iterator[str]:
    """Yield the classes, functions and constants that a module defines."""
    for node in tree.body:
        if isinstance(node, ast.ClassDef | ast.FunctionDef):
            yield node.name
        targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
        for target in targets if isinstance(node, ast.Assign | ast.AnnAssign) else ():
            names = [one.id for one in ast.walk(target) if isinstance(one, ast.Name)]
            yield from (name for name in names if name.isupper())


CODE = sources("analysis", "addon")
MODULES = {module_of(path): path for path in CODE}


def imported(path: Path) -> Iterator[tuple[ast.AST, int, str, str]]:
    """Yield each import as (node, dots, module, name): a name of that module, or "" for the module itself."""
    package = module_of(path).split(".")
    if path.name != "__init__.py":
        package = package[:-1]
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            yield from ((node, 0, alias.name, "") for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            kept = package[: len(package) - node.level + 1] if node.level else []
            base = ".".join([*kept, *([node.module] if node.module else [])])
            for alias in node.names:
                inner = f"{base}.{alias.name}"
                yield (node, node.level, inner, "") if inner in MODULES else (node, node.level, base, alias.name)


def imports(path: Path) -> Iterator[tuple[ast.AST, int, str]]:
    """Yield each import as (node, dots, absolute name of the module)."""
    yield from ((node, dots, module) for node, dots, module, _ in imported(path))
