"""A way to the office that can be bad: a server in between."""

import json
import marshal
import threading
import time
from hashlib import sha256
from http.client import HTTPConnection
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from shutil import copytree

SLOWEST = 15  # s; the phone waits longer
TO_PASS_ON = ("content-type", "authorization", "host", "origin", "sec-fetch-site", "referer")


class Between:
    """Passes on what browsers ask; ``how`` says what becomes of an exchange."""

    def __init__(self, port):
        self.how, self.sent = "good", []  # bodies of exchanges
        server = self

        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def do_GET(self):
                server.pass_on(self, port)

            do_POST = do_GET  # noqa: N815

            def log_message(self, *told):
                pass

        self.http = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.http.daemon_threads = True
        self.address = f"http://localhost:{self.http.server_port}"
        threading.Thread(target=self.http.serve_forever, daemon=True).start()

    def pass_on(self, asked, port):
        how = self.how if asked.path == "/exchange" else "good"
        body = asked.rfile.read(int(asked.headers.get("Content-Length", 0)))
        if asked.path == "/exchange":
            self.sent.append(body)
        if how == "error":
            return self.answer(asked, 500, b"")
        if how == "garbage":
            return self.answer(asked, 200, b"<!doctype html><title>Welcome to the inn</title>")
        headers = {name: asked.headers[name] for name in TO_PASS_ON if name in asked.headers}
        way = HTTPConnection("127.0.0.1", port)
        way.request(asked.command, asked.path, body, headers)
        found = way.getresponse()
        content = found.read()
        way.close()
        kept = {k: v for k, v in found.getheaders() if k.lower() not in ("content-length", "date")}
        ends = time.monotonic() + SLOWEST
        while how == self.how == "slow" and time.monotonic() < ends:
            time.sleep(0.05)
        if how == "lost":
            asked.close_connection = True
            return None
        return self.answer(asked, found.status, content, half=how == "half", **kept)

    def answer(self, asked, status, content, *, half=False, **headers):
        asked.send_response(status)
        for name, value in headers.items():
            asked.send_header(name, value)
        asked.send_header("Content-Length", str(len(content)))
        asked.end_headers()
        asked.wfile.write(content[: len(content) // 2] if half else content)
        asked.close_connection = half


class Elsewhere:
    """Another site, with a form that leads to somebody else's address."""

    def __init__(self):
        self.to = ""
        server = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self):
                fields = {"name": "Plover", "rows": "24", "spacing": "5", "spacing_unit": "in"}
                inputs = "".join(f'<input name="{k}" value="{v}">' for k, v in fields.items())
                button = "<button>Win</button>"
                page = f'<form method="post" action="{server.to}">{inputs}{button}</form>'
                self.send_response(200)
                self.send_header("Content-Type", "text/html")
                self.end_headers()
                self.wfile.write(page.encode())

            def log_message(self, *told):
                pass

        self.http = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        threading.Thread(target=self.http.serve_forever, daemon=True).start()

    def __call__(self, to):
        self.to = to
        return f"http://127.0.0.1:{self.http.server_port}/"


def of_another_version(bundle, target):
    """Copy what phones load with another word in the head of each page; gives that word."""
    copytree(bundle, target)
    product = target / "evenstand.pack"
    files = marshal.loads(product.read_bytes())
    for name, content in files.items():
        files[name] = content.replace(b"<span>Evenstand</span>", b"<span>Otherwise</span>")
    product.write_bytes(marshal.dumps(files, 4))
    told = json.loads((target / "assets.json").read_text())
    for asset in told["assets"]:
        if asset["address"] == "phone/evenstand.pack":
            asset["sha256"] = sha256(product.read_bytes()).hexdigest()
    told["version"] = "second"
    (target / "assets.json").write_text(json.dumps(told))
    (target / "assets.js").write_text(f"self.EVENSTAND = {json.dumps(told)};")
    return "Otherwise"
