"""The line drawings: the van to scale, the round in time, safety signs and the marks of a state."""

from firstpitch.papers.drawing.ink import InkMode, Picture
from firstpitch.papers.drawing.marks import Mark, Struck
from firstpitch.papers.drawing.van import draw
from firstpitch.papers.drawing.views import VIEWS, View

__all__ = ["VIEWS", "InkMode", "Mark", "Picture", "Struck", "View", "draw"]
