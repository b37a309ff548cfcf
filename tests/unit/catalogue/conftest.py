"""A catalogue of five small kinds that is sound, to be broken in one place at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from firstpitch.catalogue.loader import read_folder
from firstpitch.catalogue.proofs import faults
from firstpitch.sheet.errors import CatalogueError

_VAN = """
kind = "van"
title = "The van"
about = "The van as a whole."
group = "round"
stands = "outside"
topic = "papers"
[[steps]]
id = "welcome"
title = "Welcome"
level = "must"
say = "Welcome."
[card]
what = "Your van."
use = ["Enjoy it."]
[film]
names = ["van"]
"""

_DOOR = """
kind = "door"
title = "Door"
about = "The way in."
group = "round"
stands = "outside"
topic = "living"
[conditions.lock]
what = "door lock"
values = ["locked", "unlocked"]
start = { from-store = "locked", on-hook-up = "unlocked" }
[[supplies]]
name = "inside"
role = "gate"
when = ["self.lock = unlocked"]
[[steps]]
id = "unlock"
title = "Unlock"
level = "must"
say = "Unlock the door."
sets = ["self.lock = unlocked"]
[card]
what = "The door."
use = ["Turn the key."]
[film]
names = ["door"]
"""

_VALVE = """
kind = "valve"
title = "Cylinder valve"
about = "Opens and shuts the gas."
group = "front"
stands = "outside"
topic = "gas"
max = 1
[facts.off_take]
what = "most gas it can give"
type = "quantity"
unit = "kg/h"
need = "may"
[conditions.valve]
what = "cylinder valve"
values = ["shut", "open"]
start = { from-store = "shut", on-hook-up = "shut" }
[[supplies]]
name = "gas"
role = "source"
rank = 1
when = ["self.valve = open"]
[[steps]]
id = "open"
title = "Open the valve"
level = "must"
say = "Open it slowly."
sets = ["self.valve = open"]
[[steps]]
id = "shut"
title = "Shut the valve"
level = "must"
say = "Shut it."
sets = ["self.valve = shut"]
[finish]
always = ["self.valve = shut"]
[card]
what = "The valve."
use = ["Open it slowly."]
figures = ["off_take"]
arriving = [{ order = 400, text = "Open the valve.", step = "open" }]
[film]
names = ["valve"]
"""

_FLUE = """
kind = "flue"
title = "Heater flue"
about = "Where the burnt gas leaves."
group = "round"
stands = "outside"
topic = "gas"
[conditions.cover]
what = "flue cover"
values = ["on", "off"]
start = { from-store = "on", on-hook-up = "off" }
[[steps]]
id = "take_off"
title = "Take the cover off"
level = "must"
say = "Cover off before any flame."
sets = ["self.cover = off"]
[card]
what = "The flue."
use = ["Take the cover off."]
arriving = [{ order = 410, text = "Cover off.", step = "take_off" }]
[film]
names = ["flue"]
"""

_HEATER = """
kind = "heater"
title = "Water heater"
about = "Heats the water."
group = "inside"
stands = "inside"
topic = "water"
max = 2
[facts.capacity]
what = "water it holds"
type = "quantity"
unit = "l"
least = 2
most = 60
[facts.gas_power]
what = "power on gas"
type = "quantity"
unit = "W"
least = 100
[facts.fuel]
what = "gas it burns"
type = "choice"
choices = ["butane", "propane"]
[links.flue]
kinds = ["flue"]
need = "must"
[links.mate]
kinds = ["valve"]
need = "may"
every = true
[conditions.flame]
what = "burner"
values = ["off", "lit"]
start = { from-store = "off", on-hook-up = "off" }
[conditions.heat]
what = "the water in it"
values = ["cold", "hot"]
start = { from-store = "cold", on-hook-up = "cold" }
[[steps]]
id = "light"
title = "Light it"
at = "self"
level = "must"
say = "Light it; it holds {capacity} and burns {fuel}."
points = ["cover off first"]
hands = 10
try = 15
requires = ["flue.cover = off", "mate.valve = open", "supply gas"]
sets = ["self.flame = lit"]
starts = ["heating"]
[[steps]]
id = "hot_tap"
title = "Hot water"
at = "flue"
level = "should"
worth = 5
say = "The water is hot now."
modes = ["handover"]
requires = ["self.heat = hot"]
awaits = ["heating"]
[[steps]]
id = "put_out"
title = "Put it out"
level = "must"
say = "Switch it off."
sets = ["self.flame = off"]
[waits.heating]
title = "Water heating"
duration = { by = "heating", volume = "capacity", power = "gas_power", from = "cold_water", to = "60 degC" }
sustains = ["self.flame = lit", "supply gas"]
sets = ["self.heat = hot"]
[[guards]]
id = "covered_flue"
never = ["self.flame = lit", "flue.cover = on"]
harm = "Burnt gas cannot leave."
source = "common practice, no source"
[finish]
always = ["self.flame = off"]
kept = ["self.heat = hot|cold"]
[[cautions]]
level = "stop"
sign = "prohibition"
text = "Never light it with the cover on."
steps = ["light"]
source = "common practice, no source"
[[inspection]]
id = "burner"
point = "Burner lights and stays lit"
how = "work"
severity = "stop"
[[inspection]]
id = "rise"
point = "Temperature after ten minutes"
how = "measure"
reading = "degC"
severity = "note"
[[energy]]
supply = "gas"
fact = "gas_power"
control = "thermostat"
[[water]]
role = "holds"
fact = "capacity"
[[start_up]]
item = "Hose"
number = 1
why = "to fill it"
[card]
what = "It heats {capacity} of water."
use = ["Light it.", "Wait."]
trouble = [["No flame", "Check the gas."]]
figures = ["capacity", "fuel"]
arriving = [{ order = 520, text = "Light it.", step = "light" }]
[film]
names = ["heater"]
words = { light = ["cover", "flame"] }
"""

Files = dict[str, str]


@pytest.fixture
def tiny() -> Files:
    """The sound catalogue: file name to text."""
    return {"van": _VAN, "door": _DOOR, "valve": _VALVE, "flue": _FLUE, "heater": _HEATER}


@pytest.fixture
def told(tmp_path: Path) -> Callable[[Mapping[str, str]], list[str]]:
    """Writes the files to a folder called kinds and gives every sentence that reading or proving them leads to."""

    def tell(files: Mapping[str, str]) -> list[str]:
        for key, text in files.items():
            (tmp_path / f"{key}.toml").write_text(text, "utf-8")
        try:
            return list(faults(read_folder(tmp_path, "kinds")))
        except CatalogueError as wrong:
            return [str(wrong)]

    return tell
