"""Static files with digests in their names, in what modules import too, so that a page never mixes two versions.

What is for those who write them (comments, indents) is left out of what is sent: a first visit on a yard's thin line is a third lighter.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import PurePosixPath
from types import MappingProxyType
from typing import Any

import minify
from django.core.files.base import ContentFile
from django.core.files.storage import Storage
from whitenoise.storage import CompressedManifestStaticFilesStorage

_LIGHTER: Mapping[str, str] = MappingProxyType({".css": "text/css", ".js": "text/javascript"})


class VersionedStatics(CompressedManifestStaticFilesStorage):  # type: ignore[misc]
    """``import … from "./store.js"`` becomes ``"./store.<digest>.js"``; a tablet may then keep every file for ever."""

    support_js_module_import_aggregation = True

    def post_process(self, paths: dict[str, Any], dry_run: bool = False, **options: Any) -> Iterator[Any]:
        """Make scripts and style sheets lighter, then name and compress all files."""
        if not dry_run:
            paths = {name: self._lighter(name) or found for name, found in paths.items()}
        yield from super().post_process(paths, dry_run, **options)

    def _lighter(self, name: str) -> tuple[Storage, str] | None:
        """Make the gathered copy of a file lighter and say where it is; None for what stays as it is."""
        sort = _LIGHTER.get(PurePosixPath(name).suffix)
        if sort is None:
            return None
        with self.open(name) as kept:
            text = kept.read().decode()
        light = minify.string(sort, text)
        if light != text:
            self.delete(name)
            self._save(name, ContentFile(light.encode()))
        return self, name
