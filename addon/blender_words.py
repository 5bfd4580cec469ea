"""The words that Blender takes for icons and for what an operator did: known to the type checker, texts at run time."""

from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from bpy.stub_internal.rna_enums import (
        IconItems,
        OperatorReturnItems,
        SpaceTypeItems,
        WmReportItems,
    )
else:
    IconItems = OperatorReturnItems = SpaceTypeItems = WmReportItems = str

Icon: TypeAlias = IconItems
Outcome: TypeAlias = set[OperatorReturnItems]
"""What an operator returns: whether it did something."""
Space: TypeAlias = SpaceTypeItems
"""A kind of editor."""
Report: TypeAlias = WmReportItems
"""How grave what an operator reports is."""
