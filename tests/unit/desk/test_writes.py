"""Where the desk writes: in actions only, and each action says who, at once or not at all."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from firstpitch import desk

DESK = Path(desk.__file__).parent
WRITES = {
    "save",
    "create",
    "update",
    "delete",
    "get_or_create",
    "update_or_create",
    "bulk_create",
    "bulk_update",
    "asave",
    "acreate",
    "aupdate",
    "adelete",
    "set_password",
    "create_user",
    "create_superuser",
    "executescript",
}
LEFT_OUT = {
    "seed.py": "makes the demo, in one transaction, before anybody is there",
    "uploads.py": "draws a picture anew into memory; knows no model",
}
NOT_ACTIONS = {"history.py": "is called by actions inside their own transaction"}
READERS = {
    "device_of",
    "codes_left",
    "plain",
    "refuse_called_off",
    "first_code",
    "open_invitation",
    "session_mark",
    "small_name",
    "shipped_text",
}


def outside_actions() -> list[Path]:
    """Every module of the desk that must not write."""
    left_out = {DESK / name for name in LEFT_OUT}
    folders = ("actions", "migrations")
    return [
        file
        for file in sorted(DESK.rglob("*.py"))
        if file.relative_to(DESK).parts[0] not in folders and file not in left_out
    ]


def calls_of(tree: ast.AST) -> Iterator[ast.Attribute]:
    """Every method call."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            yield node.func


def test_nothing_but_actions_writes() -> None:
    """No page, form, middleware or access rule writes to the database; dictionaries are joined by ``|``, so that the rule has no holes."""
    found = [
        f"{file.relative_to(DESK)}:{call.lineno} calls .{call.attr}(): move the write into an action"
        for file in outside_actions()
        for call in calls_of(ast.parse(file.read_text("utf-8")))
        if call.attr in WRITES
    ]
    assert not found, "\n".join(found)


def test_what_is_locked_with_others_joined_is_locked_alone() -> None:
    """PostgreSQL locks no row that may be missing from a join, so a lock with joined rows says that it is for the row itself."""
    found = [
        f'{file.relative_to(DESK)}: select_for_update().select_related(…) wants of=("self",)'
        for file in DESK.rglob("*.py")
        if "select_for_update().select_related" in "".join(file.read_text("utf-8").split())
    ]
    assert not found, "\n".join(found)


def test_the_rule_finds_writes() -> None:
    """The search above does find a write: in actions there are many."""
    found = [call.attr for file in (DESK / "actions").glob("*.py") for call in calls_of(ast.parse(file.read_text()))]
    assert {"create", "update", "save", "delete"} <= set(found)
    assert len(outside_actions()) > 20
    assert "firstpitch.desk.models" not in (DESK / "uploads.py").read_text("utf-8")


def actions() -> list[tuple[str, ast.FunctionDef, ast.Module]]:
    """Every public function of the actions that is no mere reader."""
    found = []
    for file in sorted((DESK / "actions").glob("*.py")):
        if file.name in NOT_ACTIONS or file.name == "__init__.py":
            continue
        tree = ast.parse(file.read_text("utf-8"))
        found += [
            (f"{file.stem}.{node.name}", node, tree)
            for node in tree.body
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_") and node.name not in READERS
        ]
    return found


def is_atomic(function: ast.FunctionDef) -> bool:
    """Whether it runs in one transaction by its decorator."""
    return any(ast.unparse(one).startswith("transaction.atomic") for one in function.decorator_list)


@pytest.mark.parametrize(("name", "function", "tree"), actions(), ids=[name for name, _, _ in actions()])
def test_action(name: str, function: ast.FunctionDef, tree: ast.Module) -> None:
    """An action takes keywords only, among them ``by``, and runs in one transaction (its own, or that of the one action it hands on to)."""
    given = function.args
    assert not given.args, f"{name} takes {[one.arg for one in given.args]} by position"
    assert not given.posonlyargs
    assert not given.vararg, f"{name} takes a list of positions"
    assert "by" in {one.arg for one in given.kwonlyargs}, f"{name} does not say who: it takes no `by`"
    if is_atomic(function):
        return
    hands_on_to = {one.name for one in tree.body if isinstance(one, ast.FunctionDef) and is_atomic(one)}
    imported = {
        alias.asname or alias.name
        for one in tree.body
        if isinstance(one, ast.ImportFrom) and (one.module or "").startswith("firstpitch.desk.actions")
        for alias in one.names
    }
    writes = [call.attr for call in calls_of(function) if call.attr in WRITES]
    called = {
        node.func.id for node in ast.walk(function) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    handed = called & (hands_on_to | imported)
    assert not writes, f"{name} writes ({writes}) outside a transaction: put @transaction.atomic on it"
    assert len(handed) == 1, (
        f"{name} is in no transaction and hands on to {sorted(handed)}: put @transaction.atomic on it"
    )


def test_readers_only_read() -> None:
    """The public functions of actions that are no actions write nothing."""
    for file in sorted((DESK / "actions").glob("*.py")):
        for node in ast.parse(file.read_text("utf-8")).body:
            if isinstance(node, ast.FunctionDef) and node.name in READERS:
                assert not [call.attr for call in calls_of(node) if call.attr in WRITES], node.name


def test_every_action_tells_the_history() -> None:
    """Each module of actions writes the history, but for counting, which would drown it."""
    for file in sorted((DESK / "actions").glob("*.py")):
        if file.name in {"__init__.py", "history.py", "limits.py"}:
            continue
        names = {node.id for node in ast.walk(ast.parse(file.read_text("utf-8"))) if isinstance(node, ast.Name)}
        assert names & {"write", "write_branch", "edit_sheet"}, f"{file.name} writes no history"


def test_history_is_only_appended() -> None:
    """No code of the desk changes or deletes an event: they are made, and read."""
    for file in sorted(DESK.rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                text = ast.unparse(node)
                of_history = any(f"{name}.objects" in text for name in ("Event", "BranchEvent", "SheetBefore"))
                changes = node.func.attr in {"update", "delete", "bulk_update", "update_or_create"}
                assert not (of_history and changes), f"{file.name}:{node.lineno} changes the history: {text}"
