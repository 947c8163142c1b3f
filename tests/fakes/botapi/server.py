"""HTTP around the desk: the bot's calls under /bot<token>/, a test's orders under /control/.

It must not decide anything.
"""

from __future__ import annotations

import base64
import contextlib
import json
import socket
import sys
from collections.abc import Iterator
from email.parser import BytesParser
from email.policy import HTTP
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qsl, unquote, urlsplit

from tests.fakes.botapi.contract import Json
from tests.fakes.botapi.desk import Cut, Desk, Page
from tests.fakes.botapi.updates import ApiError


class BotApiServer(ThreadingHTTPServer):
    """Listens on this machine only."""

    daemon_threads = True
    request_queue_size = 64

    def __init__(self, port: int, desk: Desk) -> None:
        super().__init__(("127.0.0.1", port), _Handler)
        self.desk = desk

    def handle_error(self, request: Any, client_address: Any) -> None:  # noqa: ANN401 - of the standard library
        """Say nothing about a caller that is gone: tests kill them."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server: BotApiServer

    def do_POST(self) -> None:
        announced = int(self.headers.get("Content-Length", "0"))
        body = self.rfile.read(announced)
        if len(body) < announced:  # the caller died in the middle of it: nobody carries out half a call
            self.close_connection = True
            return
        self._route(body)

    def do_GET(self) -> None:
        self._route(b"")

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - named by the standard library
        """Say nothing: the address holds the token."""

    def _route(self, body: bytes) -> None:
        parts = urlsplit(self.path)
        head, _, tail = unquote(parts.path).lstrip("/").partition("/")
        with contextlib.suppress(BrokenPipeError, ConnectionResetError):  # the caller has gone: nobody to tell
            if head == "file":
                self._file(tail)
            elif head == "control":
                self._control(tail, body)
            elif head.startswith("bot"):
                self._bot(head.removeprefix("bot"), tail, body, parts.query)
            else:
                self._answer(404, {"ok": False, "error_code": 404, "description": "Not Found"})

    def _bot(self, token: str, method: str, body: bytes, query: str) -> None:
        sent, as_text = self._parameters(body, query)
        try:
            result = self.server.desk.serve(token, method, sent, as_text=as_text)
        except ApiError as error:
            told: Json = {"ok": False, "error_code": error.code, "description": error.description}
            self._answer(error.code, told | ({"parameters": error.parameters} if error.parameters else {}))
        except Page as page:
            self._write(page.code, b"<html><body>Something in between is in trouble.</body></html>", "text/html")
        except Cut:
            self._cut()
        else:
            self._answer(200, {"ok": True, "result": result})

    def _file(self, path: str) -> None:
        """Hand out a file: `bot<token>/photos/<file id>`."""
        head, _, tail = path.partition("/")
        data = self.server.desk.file(head.removeprefix("bot"), tail.rpartition("/")[2])
        if data is None:
            self._answer(404, {"ok": False, "error_code": 404, "description": "Not Found"})
        else:
            self._write(200, data, "application/octet-stream")

    def _parameters(self, body: bytes, query: str) -> tuple[Json, bool]:
        """Return the parameters, and whether their values are text (form fields)."""
        if self.headers.get_content_type() == "application/json":
            given = json.loads(body or b"{}")
            return (given if isinstance(given, dict) else {"body": given}), False
        if self.headers.get_content_type() == "application/x-www-form-urlencoded" or not body:
            fields = parse_qsl(body.decode() or query, keep_blank_values=True)
            return dict(fields), True
        if self.headers.get_content_type() == "multipart/form-data":
            return dict(_parts(self.headers["Content-Type"], body)), True
        return {"body": "neither JSON nor a form"}, True

    def _control(self, name: str, body: bytes) -> None:
        try:
            result = self.server.desk.order(name, json.loads(body or b"{}"))
        except (AttributeError, KeyError, TypeError, ValueError) as error:
            self._answer(400, {"error": f"{type(error).__name__}: {error}"})
        else:
            self._answer(200, result)

    def _answer(self, code: int, content: Any) -> None:  # noqa: ANN401 - JSON of any shape
        self._write(code, json.dumps(content).encode(), "application/json")

    def _write(self, code: int, content: bytes, kind: str) -> None:
        """Write head and body at once: two writes would wait for each other."""
        head = f"HTTP/1.1 {code} -\r\nContent-Type: {kind}\r\nContent-Length: {len(content)}\r\n\r\n"
        self.wfile.write(head.encode() + content)

    def _cut(self) -> None:
        self.close_connection = True
        with contextlib.suppress(OSError):  # it may be cut already
            self.connection.shutdown(socket.SHUT_RDWR)


def _parts(content_type: str, body: bytes) -> Iterator[tuple[str, object]]:
    """Yield name and value of each part of a form (RFC 7578): text, or a file with name, type and bytes as base64."""
    whole = BytesParser(policy=HTTP).parsebytes(b"Content-Type: " + content_type.encode() + b"\r\n\r\n" + body)
    for part in whole.iter_parts():
        name = str(part.get_param("name", header="content-disposition"))
        content = part.get_payload(decode=True)
        assert isinstance(content, bytes)
        if part.get_filename() is None:
            yield name, content.decode()
        else:
            kind, data = part.get_content_type(), base64.b64encode(content).decode()
            yield name, {"file_name": part.get_filename(), "mime_type": kind, "base64": data}
