"""Static files with digests in their names, in what modules import too, so that a page never mixes two versions."""

from __future__ import annotations

from whitenoise.storage import CompressedManifestStaticFilesStorage


class VersionedStatics(CompressedManifestStaticFilesStorage):  # type: ignore[misc]
    """``import … from "./store.js"`` becomes ``"./store.<digest>.js"``; a tablet may then keep every file for ever."""

    support_js_module_import_aggregation = True
