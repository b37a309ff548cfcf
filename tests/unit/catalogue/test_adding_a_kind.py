"""Adding a kind is adding one file: from then on sheets may list it and rounds are planned with it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.rounds import Patience, Plan, build_problem, plan_round, replay
from firstpitch.sheet import read_sheet_text, resolve_links

_KIND = """
kind = "step_light"
title = "Light over the step"
about = "Lights the step after dark."
group = "round"
stands = "outside"
topic = "12v"
[facts.power]
what = "power it takes"
type = "quantity"
unit = "W"
[links.steady]
kinds = ["corner_steady"]
need = "may"
every = true
[conditions.light]
what = "light over the step"
values = ["off", "on"]
start = { from-store = "off", on-hook-up = "off" }
[[steps]]
id = "on"
title = "Switch the step light on"
level = "must"
say = "Here is the light over the step. It takes {power}."
requires = ["supply 12v", "steady.leg = down"]
sets = ["self.light = on"]
[[steps]]
id = "off"
title = "Switch the step light off"
level = "must"
say = "And off again."
requires = ["self.light = on"]
sets = ["self.light = off"]
[finish]
always = ["self.light = off"]
[card]
what = "Lights the step after dark."
use = ["Switch it off when you go in."]
[film]
names = ["step light"]
"""

_KIT = """
  - id: step-light
    kind: step_light
    name: Step light
    at: [4.00 m, 1.10 m]
    facts:
      power: 3 W
"""


def test_a_kind_of_ones_own_is_planned_with(tmp_path: Path) -> None:
    """A light described in one file is listed on a sheet, shown with its own figure while there is 12 V, and left switched off."""
    (tmp_path / "step_light.toml").write_text(_KIND, "utf-8")
    catalogue = load(tmp_path)
    text = sheets()["wren"].read_text("utf-8").rstrip("\n") + _KIT
    sheet = read_sheet_text(text, catalogue.kinds, today=date(2026, 11, 1))
    problem = build_problem(sheet, catalogue, resolve_links(sheet.kit, catalogue.kinds).filled)
    plan = plan_round(problem, patience=Patience(starts=1, tries=200, work=0.1))
    assert isinstance(plan, Plan)
    assert replay(problem, plan.steps) == ()
    order = [timed.step for timed in plan.steps]
    assert order.index("control-panel.master_on") < order.index("step-light.on") < order.index("step-light.off")
    (said,) = (step.say for step in problem.steps if step.id == "step-light.on")
    assert said == "Here is the light over the step. It takes 3 W."
