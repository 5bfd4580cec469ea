"""The type of arrays: of numbers, or of booleans where a mask is spoken of. Shapes stand in docstrings."""

from typing import Any

from numpy.typing import NDArray

Array = NDArray[Any]
