"""Shapes on a page: ``{% load desk_shapes %}``, then ``{% state "done" %}``, ``{% sign "warning" %}``."""

from __future__ import annotations

from typing import get_args

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from firstpitch.papers.drawing.signs import STATE_WORDS, Sign, State, draw_sign, draw_state

register = template.Library()


@register.simple_tag
def sign(name: Sign) -> SafeString:
    """A safety sign; the words that say the same stand beside it, so screen readers pass it by."""
    if name not in get_args(Sign):
        raise ValueError(f"there is no sign {name!r}")
    return mark_safe(draw_sign(name, hidden=True))


@register.simple_tag
def state(name: State, words: str = "", left: float = 1.0) -> SafeString:
    """The shape of a state with its word, or with ``words``; ``left`` (0 to 1) is how much of a wait is still to run."""
    shape = mark_safe(draw_state(name, left=left, hidden=True))
    return format_html('<span class="state">{}<span>{}</span></span>', shape, words or STATE_WORDS[name])


@register.simple_tag
def shape(name: State) -> SafeString:
    """The shape of a state without its word, for scripts that put the word beside it."""
    return mark_safe(draw_state(name, hidden=True))
