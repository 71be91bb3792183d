"""A static server for tests: under a sub-path, with other MIME types, more headers, missing files."""

from __future__ import annotations

import sys
import threading
import time
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import BinaryIO


@dataclass(frozen=True)
class Manner:
    """How a server differs from a plain one."""

    under: str = ""
    """The sub-path the folder is served under, with a slash first and none last."""
    types: Mapping[str, str] = field(default_factory=dict)
    """MIME types by the file's ending, with its dot."""
    headers: Mapping[str, str] = field(default_factory=dict)
    """Headers sent with every file."""
    missing: tuple[str, ...] = ()
    """Ends of paths that are answered with 404."""
    asked: list[str] = field(default_factory=list)
    """What was asked for: whole addresses, also of others, by a browser whose proxy this server is."""
    cut: Collection[str] = ()
    """Ends of paths of which one half is sent; a test may change them while the server runs."""
    stalled: Collection[str] = ()
    """Ends of paths of which one half is sent, and no end ever."""
    port: int = 0
    """The port to listen on; 0 is a free one."""


def handler(folder: Path, manner: Manner) -> type[SimpleHTTPRequestHandler]:
    """A request handler for one folder."""

    class Handler(SimpleHTTPRequestHandler):
        extensions_map = {
            **SimpleHTTPRequestHandler.extensions_map,
            ".wasm": "application/wasm",
            **manner.types,
        }

        def __init__(self, *args: object) -> None:
            super().__init__(*args, directory=str(folder))

        def translate_path(self, path: str) -> str:
            manner.asked.append(path)
            host, _, here = path.removeprefix("http://").partition("/")
            if path.startswith("http://"):
                path = f"/{here}" if host == self.own else "/elsewhere"
            clean = path.partition("?")[0]
            if not clean.startswith(manner.under + "/") or clean.endswith(manner.missing or "\0"):
                return str(folder / "no-such-file")
            return super().translate_path(path.removeprefix(manner.under))

        @property
        def own(self) -> str:
            return f"127.0.0.1:{self.server.server_port}"

        def do_CONNECT(self) -> None:
            manner.asked.append(f"https://{self.path}")
            self.send_error(403)

        def end_headers(self) -> None:
            for name, value in manner.headers.items():
                self.send_header(name, value)
            super().end_headers()

        def copyfile(self, source: BinaryIO, outputfile: BinaryIO) -> None:
            if not self._is_any(manner.cut) and not self._is_any(manner.stalled):
                return super().copyfile(source, outputfile)
            content = source.read()
            outputfile.write(content[: len(content) // 2])
            outputfile.flush()
            while self._is_any(manner.stalled):
                time.sleep(0.05)

        def _is_any(self, ends: Collection[str]) -> bool:
            return self.path.partition("?")[0].endswith(tuple(ends) or "\0")

        def log_message(self, *args: object) -> None:
            """Tests read the requests in the browser."""

    return Handler


class Server(ThreadingHTTPServer):
    """A server that does not mind a browser that stops listening."""

    allow_reuse_address = True

    daemon_threads = True

    def handle_error(self, request: object, client: object) -> None:
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client)


@contextmanager
def serving(folder: Path, manner: Manner = Manner()) -> Iterator[str]:
    """Serve `folder` on a free port of this machine; gives the address, with a slash last."""
    with Server(("127.0.0.1", manner.port), handler(folder, manner)) as server:
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        try:
            yield f"http://127.0.0.1:{server.server_port}{manner.under}/"
        finally:
            server.shutdown()
            thread.join()
