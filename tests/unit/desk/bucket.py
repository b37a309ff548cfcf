"""A bucket on this machine that speaks as much of the S3 interface as the storage library asks for: objects whole, in parts, by range."""

from __future__ import annotations

import hashlib
import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qs, urlsplit
from xml.sax.saxutils import escape, unescape


@dataclass
class Bucket:
    """What it holds, and what it was asked."""

    address: str
    objects: dict[str, bytes] = field(default_factory=dict)
    parts: dict[str, dict[int, bytes]] = field(default_factory=dict)
    asked: list[str] = field(default_factory=list)
    unsigned: list[str] = field(default_factory=list)


@contextmanager
def bucket() -> Iterator[Bucket]:
    """A running bucket of any name."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), _Asked)
    held = Bucket(f"http://127.0.0.1:{server.server_address[1]}")
    server.held = held  # type: ignore[attr-defined]
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield held
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


class _Asked(BaseHTTPRequestHandler):
    """One request."""

    protocol_version = "HTTP/1.1"

    @property
    def held(self) -> Bucket:
        found: Bucket = self.server.held  # type: ignore[attr-defined]
        if not self.headers.get("Authorization", "").startswith("AWS4-HMAC-SHA256"):
            found.unsigned.append(self.path)
        found.asked.append(self.command + (" by range" if self.headers.get("Range") else ""))
        return found

    def log_message(self, *said: Any) -> None:
        """Say nothing."""

    def _where(self) -> tuple[str, dict[str, list[str]]]:
        parts = urlsplit(self.path)
        return parts.path.lstrip("/"), parse_qs(parts.query, keep_blank_values=True)

    def _say(self, status: int, body: bytes = b"", **headers: str) -> None:
        self.send_response(status)
        for name, value in {"Content-Length": str(len(body)), **headers}.items():
            self.send_header(name.replace("_", "-"), value)
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def _sent(self) -> bytes:
        """The body; where it came in pieces with their lengths before them (``aws-chunked``), joined."""
        body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
        if "aws-chunked" not in self.headers.get("Content-Encoding", ""):
            return body
        joined = b""
        while body:
            head, _, body = body.partition(b"\r\n")
            length = int(head.split(b";")[0], 16)
            if not length:
                break
            joined, body = joined + body[:length], body[length + 2 :]
        return joined

    def do_PUT(self) -> None:
        """Keep an object, or a part of one."""
        (name, query), held, sent = self._where(), self.held, self._sent()
        if "uploadId" in query:
            held.parts[query["uploadId"][0]][int(query["partNumber"][0])] = sent
        else:
            held.objects[name] = sent
        self._say(200, ETag=f'"{hashlib.md5(sent, usedforsecurity=False).hexdigest()}"')

    def do_POST(self) -> None:
        """Begin an object in parts, put its parts together, or take several objects away."""
        (name, query), held, sent = self._where(), self.held, self._sent()
        if "delete" in query:
            for key in re.findall(r"<Key>(.*?)</Key>", sent.decode()):
                held.objects.pop(f"{name.rstrip('/')}/{unescape(key)}", None)
            text = "<DeleteResult></DeleteResult>"
        elif "uploads" in query:
            key = f"u{len(held.parts)}"
            held.parts[key] = {}
            text = f"<InitiateMultipartUploadResult><UploadId>{key}</UploadId></InitiateMultipartUploadResult>"
        else:
            held.objects[name] = b"".join(part for _, part in sorted(held.parts[query["uploadId"][0]].items()))
            text = '<CompleteMultipartUploadResult><ETag>"whole"</ETag></CompleteMultipartUploadResult>'
        self._say(200, text.encode(), Content_Type="application/xml")

    def do_GET(self) -> None:
        """Give an object, the asked range of it, or (no object named) what there is with a prefix, in one page."""
        (name, query), held = self._where(), self.held
        if "/" not in name.rstrip("/"):
            self._list(name.rstrip("/"), query.get("prefix", [""])[0])
            return
        if name not in held.objects:
            self._say(404, b"" if self.command == "HEAD" else b"<Error><Code>NoSuchKey</Code></Error>")
            return
        whole, about = held.objects[name], {"ETag": '"x"', "Last_Modified": "Wed, 25 Nov 2026 10:00:00 GMT"}
        asked = self.headers.get("Range", "").removeprefix("bytes=")
        if asked:
            first, _, last = asked.partition("-")
            end = int(last) + 1 if last else len(whole)
            about["Content_Range"] = f"bytes {first}-{min(end, len(whole)) - 1}/{len(whole)}"
            self._say(206, whole[int(first) : end], **about)
        elif self.command == "HEAD":
            self.send_response(200)
            for header, value in {**about, "Content-Length": str(len(whole))}.items():
                self.send_header(header.replace("_", "-"), value)
            self.end_headers()
        else:
            self._say(200, whole, **about)

    def _list(self, name: str, prefix: str) -> None:
        found = sorted(key.partition("/")[2] for key in self.held.objects if key.startswith(f"{name}/{prefix}"))
        rows = "".join(
            f"<Contents><Key>{escape(key)}</Key><Size>{len(self.held.objects[f'{name}/{key}'])}</Size></Contents>"
            for key in found
        )
        text = f"<ListBucketResult><Name>{name}</Name><IsTruncated>false</IsTruncated>{rows}</ListBucketResult>"
        self._say(200, text.encode(), Content_Type="application/xml")

    do_HEAD = do_GET  # noqa: N815

    def do_DELETE(self) -> None:
        """Take an object away."""
        (name, _), held = self._where(), self.held
        held.objects.pop(name, None)
        self._say(204)
