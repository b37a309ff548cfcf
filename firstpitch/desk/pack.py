"""The owner's pack of a handover's van, as page and PDF, kept while the van's sheet stays as it is."""

from __future__ import annotations

import base64
import hashlib
import re
from functools import lru_cache

from firstpitch.desk.inputs import OpenVan
from firstpitch.papers import PackData, pack_data, pack_document, pack_page

_STYLE = re.compile(r"<style[^>]*>(.*?)</style>", re.DOTALL)
_ATTRIBUTE = re.compile(r'\sstyle="([^"]*)"')


@lru_cache(maxsize=16)
def pack_of(opened: OpenVan) -> PackData:
    """Everything the pack says."""
    return pack_data(opened.sheet, opened.catalogue)


@lru_cache(maxsize=16)
def pack_file(opened: OpenVan) -> bytes:
    """The pack as a PDF file."""
    return pack_document(pack_of(opened))


@lru_cache(maxsize=16)
def pack_sheet(opened: OpenVan) -> tuple[str, str]:
    """The pack as a page of its own, and the content security policy that lets its own styles and fonts through and nothing else."""
    page = pack_page(pack_of(opened))
    styles = sorted({*_STYLE.findall(page), *_ATTRIBUTE.findall(page)})
    hashes = " ".join(f"'sha256-{_digest(style)}'" for style in styles)
    policy = (
        f"default-src 'none'; style-src 'unsafe-hashes' {hashes}; font-src data:; img-src data:; base-uri 'none'; "
        "form-action 'none'; frame-ancestors 'none'"
    )
    return page, policy


def _digest(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
