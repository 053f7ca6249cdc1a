from .adjustments import Adjustments

class HTTPRequestParser:
    adj: Adjustments
    path: str
    headers_finished: bool
    body_bytes_received: int
    def parse_header(self, header_plus: bytes) -> None: ...
