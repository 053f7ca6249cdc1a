"""What JavaScript hands to the bridge, and what it gets back, to be started inside Pyodide."""

import json
import sys

from evenstand.web.run.bridge import Bridge

CALLS = {
    "nothing": "handle => handle('GET', '/')",
    "undefined": "handle => handle('GET', '/', undefined, undefined)",
    "null": "handle => handle('GET', '/', null, null)",
    "empty": "handle => handle('POST', '/', new Headers(), new Uint8Array())",
    "headers": "handle => handle('GET', '/', new Headers({'X-A': 'é'}))",
    "pairs": "handle => handle('GET', '/', [['x-a', 'é']], null)",
    "map": "handle => handle('GET', '/', new Map([['x-a', 'é']]), null)",
    "object": "handle => handle('GET', '/', {'x-a': 'é'})",
    "bytes": "handle => handle('POST', '/', null, new Uint8Array([97, 0, 255]))",
    "buffer": "handle => handle('POST', '/', null, new Uint8Array([97, 0, 255]).buffer)",
    "text": "handle => handle('POST', '/', null, 'aé')",
    "url": "handle => handle('GET', new URL('https://farm.example/a?b').href)",
}


def echo(environ, start):
    start("200 OK", [("Content-Type", "application/json")])
    told = {name: environ.get(name) for name in ("HTTP_X_A", "HTTP_HOST", "PATH_INFO")}
    return [json.dumps(told | {"read": list(environ["wsgi.input"].read())}).encode()]


if __name__ == "__main__":
    from pyodide.code import run_js  # only there

    handle = Bridge(echo).handle
    seen = {name: json.loads(run_js(call)(handle)[2]) for name, call in CALLS.items()}
    respond = """handle => {
        const [status, headers, body] = handle('GET', '/').toJs({create_pyproxies: false});
        const answer = new Response(body, {status, headers});
        return [answer.status, answer.headers.get('content-type'), body.constructor.name];
    }"""
    seen["response"] = run_js(respond)(handle).to_py()
    sys.stdout.write(json.dumps(seen) + "\n")
