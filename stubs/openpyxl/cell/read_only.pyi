from typing import Any

EMPTY_CELL: Any
