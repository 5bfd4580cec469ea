"""What classes share that Blender registers: parts of an operator or a panel to the type checker, else of nothing.

Blender wants its own class last among the bases, and once.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bpy.types import Operator as OperatorPart
    from bpy.types import Panel as PanelPart
else:
    OperatorPart = PanelPart = object

__all__ = ["OperatorPart", "PanelPart"]
