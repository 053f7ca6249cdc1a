from typing import Any

class WriteOnlyCell:
    data_type: str
    number_format: str
    font: Any
    quotePrefix: bool
    def __init__(self, ws: Any = ..., value: Any = ...) -> None: ...
