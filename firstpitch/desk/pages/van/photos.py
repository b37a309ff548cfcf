"""Photos as the browser asks for them."""

from __future__ import annotations

import uuid

from django.core.files.storage import default_storage
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_GET

from firstpitch.desk.access import media, member, members
from firstpitch.desk.actions.photos import small_name


@members()
@require_GET
def photo(request: HttpRequest, key: uuid.UUID, size: str = "") -> HttpResponseBase:
    """One photo of the branch; it never changes, so the browser may keep it."""
    one = get_object_or_404(media(member(request)), pk=key, sort__startswith="image/")
    name = small_name(str(one.file.name)) if size == "small" else str(one.file.name)
    try:
        with default_storage.open(name) as stream:
            content = stream.read()
    except FileNotFoundError:  # a photo that came without its small one is sent whole
        if size:
            return photo(request, key)
        raise Http404("the file is gone") from None
    keep = {"Cache-Control": "private, max-age=31536000, immutable"}
    return HttpResponse(content, content_type="image/jpeg" if size else one.sort, headers=keep)
