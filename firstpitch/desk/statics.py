"""Static files with digests in their names, in what modules import too, so that a page never mixes two versions.

What is for those who write them (comments, indents) is left out of what is sent: a first visit on a yard's thin line is a third lighter.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath
from types import MappingProxyType
from typing import Any

import minify
from django.core.files.storage import Storage
from whitenoise.storage import CompressedManifestStaticFilesStorage

_LIGHTER: Mapping[str, str] = MappingProxyType({".css": "text/css", ".js": "text/javascript"})


class VersionedStatics(CompressedManifestStaticFilesStorage):  # type: ignore[misc]
    """``import … from "./store.js"`` becomes ``"./store.<digest>.js"``; a tablet may then keep every file for ever."""

    support_js_module_import_aggregation = True

    def post_process(self, paths: dict[str, Any], dry_run: bool = False, **options: Any) -> Iterator[Any]:
        """Make scripts and style sheets lighter, then name and compress all files."""
        if not dry_run:
            paths = {name: self._lighter(name, *found) or found for name, found in paths.items()}
        yield from super().post_process(paths, dry_run, **options)

    def _lighter(self, name: str, source: Storage, path: str) -> tuple[Storage, str] | None:
        """Put a lighter copy of a source in the place of what was gathered and say where it is; None for what stays as it is."""
        sort = _LIGHTER.get(PurePosixPath(name).suffix)
        if sort is None:
            return None
        with source.open(path) as kept:
            light = lighter(sort, kept.read().decode())
        Path(self.path(name)).write_bytes(light.encode())
        return self, name


def lighter(sort: str, text: str) -> str:
    """A script or style sheet without what only its writers need; as it was where that could not be read again.

    >>> lighter("text/css", "a { color: red; } /* why */")
    'a{color:red}'
    >>> lighter("text/javascript", "export {}; // only types")
    'export {}; // only types'
    """
    try:
        light: str = minify.string(sort, text)
        minify.string(sort, light)
    except minify.MinifyError:
        return text
    return light
