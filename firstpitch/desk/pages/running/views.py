"""For whoever keeps the desk running."""

from __future__ import annotations

from django.http import HttpRequest, JsonResponse
from django.views.decorators.http import require_safe

from firstpitch.desk.access import anyone
from firstpitch.desk.health import health


@anyone
@require_safe
def health_page(request: HttpRequest) -> JsonResponse:  # noqa: ARG001  (a view)
    """200 when the desk can do its work, 503 when it cannot; numbers and yes or no, nothing of anybody."""
    found = health()
    return JsonResponse(found.told(), status=200 if found.well else 503)
