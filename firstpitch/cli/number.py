"""A number as an option, "nan" refused."""

from __future__ import annotations

import math
from typing import Any

import click


class Number(click.FloatRange):
    """A number within a range; "nan", which is neither above nor below anything, is refused too."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The number; click's own sentence when it is none or outside the range."""
        found = super().convert(value, param, ctx)
        if math.isnan(found):
            self.fail(f"{value} is not a number; give one in the range {self._describe_range()}.", param, ctx)
        return found
