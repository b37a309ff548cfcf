"""What a task of the queue is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from firstpitch.desk.models import Job

Tell = Callable[[str], None]
Keep = Callable[[], dict[str, Any]]
Task = Callable[[Job, Tell], Keep]


class TaskError(Exception):
    """The work cannot be done, and trying again would not help; the words are for the person who asked."""
