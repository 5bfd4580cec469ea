"""One module rounds to the frames that poses fall on: `analysis/beat.py`."""

import ast

from tests.house import CODE, module_of, tree_of

ROUNDING = {"round", "floor", "ceil", "rint", "trunc"}
STEPS = {"step", "grid"}
AXES = {"analysis.report.height_plot"}
"""Round the marks of an axis, not frames of poses."""


def rounds_to_steps(tree: ast.AST) -> list[int]:
    """List the lines that round what is divided by a step, or take a step so many times."""
    def names(node: ast.AST) -> set[str]:
        return {getattr(one, "id", getattr(one, "attr", "")) for one in ast.walk(node)}

    return [node.lineno for node in ast.walk(tree) if isinstance(node, ast.Call)
            and names(node.func) & ROUNDING and any(
                isinstance(one, ast.BinOp) and isinstance(one.op, ast.Div | ast.FloorDiv) and names(one.right) & STEPS
                for argument in node.args for one in ast.walk(argument))]


def test_one_module_rounds_to_steps() -> None:
    assert rounds_to_steps(ast.parse("max(jump.step, jump.step * round(asked / jump.step))"))
    assert rounds_to_steps(ast.parse("np.rint((frames - low) / grid)"))
    assert not rounds_to_steps(ast.parse("round(jump.landing.frame)"))
    assert not [f"{module_of(path)}:{line}" for path in CODE for line in rounds_to_steps(tree_of(path))
                if module_of(path) not in {"analysis.beat", *AXES}]
