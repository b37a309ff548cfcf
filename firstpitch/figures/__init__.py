"""Published figures, each once, each with where it comes from.

A figure file is ``figures/<topic>.toml``: one table per figure with ``what``, ``value`` (as printed, with its unit), ``source`` (a
key of ``sources.toml``), ``clause``, ``edition``, ``status`` and optionally ``range`` and ``note``. Tables of rows are CSV files
beside them, named by ``rows`` in the figure's table.
"""

from firstpitch.figures.figure import Figure, Source, all_figures, get, rows

__all__ = ["Figure", "Source", "all_figures", "get", "rows"]
