"""A general planning library's parser and plan validators, asked about the PDDL text that we write."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Any

from pyparsing import ParserElement
from unified_planning.engines.plan_validator import SequentialPlanValidator, TimeTriggeredPlanValidator
from unified_planning.engines.results import ValidationResultStatus
from unified_planning.io import PDDLReader

from firstpitch.rounds import Problem, TimedStep
from firstpitch.rounds.pddl import domain_pddl, plan_pddl, problem_pddl
from firstpitch.rounds.pddl_classical import classical_domain_pddl, classical_plan_pddl, classical_problem_pddl


@cache
def _reader() -> Any:
    reader = PDDLReader()
    ParserElement.disable_memoization()  # the library turns it on; for texts of this shape it only doubles the time
    return reader


def _verdict(validator: Any, problem: Any, plan: Any) -> bool:
    validator.skip_checks = True  # it would work out for each plan anew what is asserted once when the text is read
    return bool(validator.validate(problem, plan).status == ValidationResultStatus.VALID)


@dataclass(frozen=True)
class Judge:
    """One problem as the library reads it from our text; ``accepts`` is its validator's verdict on a sequence."""

    problem: Problem

    @cached_property
    def timed(self) -> Any:
        found = _reader().parse_problem_string(domain_pddl(self.problem), problem_pddl(self.problem))
        assert TimeTriggeredPlanValidator.supports(found.kind)
        return found

    @cached_property
    def untimed(self) -> Any:
        text = classical_domain_pddl(self.problem), classical_problem_pddl(self.problem)
        found = _reader().parse_problem_string(*text)
        assert SequentialPlanValidator.supports(found.kind)
        return found

    def accepts(self, sequence: Sequence[TimedStep]) -> bool:
        """The verdict on the plan with its times."""
        plan = _reader().parse_plan_string(self.timed, plan_pddl(self.problem, sequence))
        return _verdict(TimeTriggeredPlanValidator(), self.timed, plan)

    def accepts_order(self, sequence: Sequence[TimedStep]) -> bool:
        """The verdict on the order alone."""
        plan = _reader().parse_plan_string(self.untimed, classical_plan_pddl(self.problem, sequence))
        return _verdict(SequentialPlanValidator(), self.untimed, plan)
