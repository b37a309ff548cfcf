"""The words people say round each sort of figure, and the things that are counted. Common usage, no source."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


# By the name of the fact; the words of the catalogue's own description are added.
FACT_CUES: Final[Mapping[str, str]] = {
    "miro": "running order unladen empty factory works nothing nowt weighs weigh bare stands built line",
    "mtplm": "plate max maximum laden loaded allowed gross heaviest go legally weigh flat",
    "payload": "payload pack load clobber leaves yourselves play spare carry gear stuff belongings things allowance pots own",
    "noseweight_limit": "nose noseweight front hitch ball",
    "axle_limit": "axle",
    "length": "long length body",
    "shipping_length": "overall shipping end hitch",
    "width": "wide width across",
    "height": "high height tall bridge barrier",
    "headroom": "headroom head stand inside",
    "tyre_pressure": "tyre tyres pressure cold psi pump wheels pounds",
    "wheel_torque": "torque nut nuts bolts wrench wheel newton",
    "dc_power": "twelve battery volts volt",
    "mains_power": "mains electric electricity hookup leccy element",
    "gas_power": "gas burner flame",
    "gas_rate": "gas burns hour gram grams",
    "output_power": "food cooking cook output heats",
    "input_power": "plug wall socket pulls draws eating off",
    "running_power": "run running takes draws",
    "cooling": "cooling chilling cool",
    "peak_power": "sun solar roof panel",
    "empty_mass": "empty itself tare",
    "size": "bottle gas propane butane full",
    "mass": "weighs weight heavy lift",
    "limit": "limit hold holds rated rating carry max maximum person",
    "fuse": "fuse blows pops",
    "capacity": "capacity holds tank",
    "charge_floor": "charge charging below lithium freezing",
    "opens_at": "opens pops dumps lets",
    "resets_at": "reset back stays set",
    "hot_water": "hot degrees temperature",
    "standby_current": "draws nibbles uses always",
    "hose_date": "hose",
    "regulator_date": "regulator stamped",
    "replace_by": "replace new bin finished expires dies",
    "check_by": "check checked service looked inspected",
    "subscription_ends": "subscription paid monitoring",
    "volume": "holds inside",
    "flush_volume": "flush",
    "flow": "minute comes",
    "units": "motor motors",
    "s_value": "value",
    "d_value": "value",
}
# The supply a figure is of, by the name of the fact, and the words for each.
MODES: Final[Mapping[str, str]] = {"mains_power": "mains", "gas_power": "gas", "gas_rate": "gas", "dc_power": "battery"}
MODE_WORDS: Final[Mapping[str, str]] = {
    "mains": "mains electric electricity hookup leccy element",
    "gas": "gas burner propane",
    "battery": "battery twelve 12",
}
# Figures that few people tell, and nobody without a word that says so.
SELDOM: Final = _words(
    "s_value d_value empty_mass charge_floor axle_limit shipping_length headroom resets_at gas_rate fluid_volume drain_flow fill_flow "
    "tap_flow standby_power amplifier_power standby_current"
)
# What is counted, by the name of the fact: the words one of which must come soon after the number.
COUNTED_AS: Final[Mapping[str, frozenset[str]]] = {
    "berths": _words("berth berths birth births berthed sleeper"),
    "burners": _words("ring rings burner burners flame flames gas lit going"),
    "units": _words("motor motors units movers"),
    "number": _words("window windows blind blinds flyscreens rooflights"),
}
CLOSE_ONLY: Final = _words("gas lit going")  # of these, the ones that count only right after the number
# And those that may come before it: “she sleeps six”.
COUNTED_AFTER: Final[Mapping[str, frozenset[str]]] = {
    "berths": _words("sleeps sleep sleeping"),
}
# Words that are in a figure's description but say nothing of it.
DULL: Final = _words(
    "on in off out up down all it its one by most greatest highest lowest gives takes that while with if"
)
