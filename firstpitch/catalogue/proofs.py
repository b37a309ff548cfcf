"""Proof that a catalogue is sound; docs/catalogue.md lists what is proved."""

from __future__ import annotations

from collections.abc import Iterator

from firstpitch.catalogue.card_order import card_faults
from firstpitch.catalogue.lines import Kinds
from firstpitch.catalogue.measures import figure_faults, unused_faults
from firstpitch.catalogue.reach import reach_faults
from firstpitch.catalogue.references import catalogue_faults, reference_faults
from firstpitch.catalogue.sense import sense_faults


def faults(kinds: Kinds) -> Iterator[str]:
    """One sentence for each fault of these kinds, none when the catalogue is sound.

    Where names are wrong nothing further is tried, because what depends on them could not be told.
    """
    for stage in (_names, _figures, _sense, reach_faults, card_faults):
        found = False
        for sentence in stage(kinds):
            found = True
            yield sentence
        if found and stage is _names:
            return


def _names(kinds: Kinds) -> Iterator[str]:
    yield from catalogue_faults(kinds)
    for kind in kinds.values():
        yield from reference_faults(kinds, kind)


def _figures(kinds: Kinds) -> Iterator[str]:
    for kind in kinds.values():
        yield from figure_faults(kinds, kind)
    yield from unused_faults(kinds)


def _sense(kinds: Kinds) -> Iterator[str]:
    for kind in kinds.values():
        yield from sense_faults(kinds, kind)
