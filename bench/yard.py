"""A large dealership on a SQLite file: so many vans, branches and events, always the same, made in a minute or two and kept.

Its rows are copies of a few that the desk's own actions made (``bench/model_rows.py``): three vans, each with a whole round
held and signed. One in ten handovers (the latest) has all its events, older ones the first few; all signed ones have their record, those of
a month before and after today their plan.
"""

from __future__ import annotations

import contextlib
import getpass
import hashlib
import json
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[1]
PEOPLE_EACH = 5  # of a branch: three specialists, a technician, a manager
_DENSE = 930 / 2500  # days that one van of a branch stands for in its diary
_AHEAD_DAYS = 30
_FULL_TENTH = 10
_FEW = 16
_TOP_UP = 0x800
_CHASSIS = "printf('DEM0YARD%09d', n)"


@dataclass(frozen=True)
class Size:
    """How large."""

    vans: int
    branches: int
    events: int


LARGE = Size(50_000, 20, 2_000_000)
SMALL = Size(2_000, 2, 80_000)
TINY = Size(250, 2, 10_000)


def environment(data: Path) -> dict[str, str]:
    """The surroundings of a desk on this yard."""
    kept = {
        name: value for name, value in os.environ.items() if not name.startswith(("FIRSTPITCH_", "DJANGO_", "PYTEST_"))
    }
    return {
        **kept,
        "FIRSTPITCH_DATA": str(data),
        "DJANGO_SETTINGS_MODULE": "firstpitch.desk.settings",
        "FIRSTPITCH_LOG": "WARNING",
    }


def yard(size: Size) -> Path:
    """The data folder of a yard of this size, around today; made unless this day's is there, older ones of the size taken away."""
    place = Path(tempfile.gettempdir()) / f"firstpitch-yards-{getpass.getuser()}"
    place.mkdir(mode=0o700, exist_ok=True)
    name = f"{size.vans}-{size.branches}-{size.events}-"
    made = place / f"{name}{_mark()}"
    if not made.exists():
        _take_away(place.glob(f"{name}*"))
        making = Path(tempfile.mkdtemp(prefix="making-", dir=place))
        try:
            make(making, size, _model_rows(place))
            with contextlib.suppress(OSError):  # another process may have been quicker
                making.rename(made)
        finally:
            shutil.rmtree(making, ignore_errors=True)
    return made


def _mark() -> str:
    """Changes with the day and with everything the rows depend on."""
    desk = ROOT / "firstpitch" / "desk"
    texts = [
        *sorted((desk / "models").glob("*.py")),
        *sorted((desk / "migrations").glob("*.py")),
        Path(__file__),
        Path(__file__).with_name("model_rows.py"),
    ]
    texts += sorted((ROOT / "firstpitch" / "demo").glob("*.yaml"))
    joined = b"".join(file.read_bytes() for file in texts) + date.today().isoformat().encode()
    return hashlib.sha256(joined).hexdigest()[:12]


def make(data: Path, size: Size, rows: dict[str, Any]) -> None:
    """Fill the empty folder ``data`` with copies of ``rows``."""
    _run(data, "import django; django.setup(); from firstpitch.desk.__main__ import prepare; prepare(demo=False)")
    with sqlite3.connect(data / "firstpitch.sqlite3", isolation_level=None) as line:
        line.execute("PRAGMA journal_mode=MEMORY")
        line.execute("PRAGMA synchronous=OFF")
        line.execute("PRAGMA cache_size=-400000")
        line.execute("PRAGMA foreign_keys=OFF")
        line.execute("BEGIN")
        _people(line, size, rows)
        _vans(line, size, rows)
        _handovers(line)
        _events(line, size, rows)
        line.execute("COMMIT")
        _look_over(line, size)
        line.execute("PRAGMA journal_mode=WAL")


def _run(data: Path, code: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", code], env=environment(data), cwd=ROOT, capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise RuntimeError(done.stderr[-3000:])
    return done.stdout


def _model_rows(place: Path) -> dict[str, Any]:
    """The rows to copy, kept beside the yards made of them."""
    kept = place / f"models-{_mark()}.json"
    if not kept.exists():
        _take_away(place.glob("models-*"))
        with tempfile.TemporaryDirectory() as folder:
            shown = _run(Path(folder), "from bench.model_rows import show; show()").splitlines()[-1]
        part = place / f"making-{os.getpid()}.json"
        part.write_text(shown, "utf-8")
        part.rename(kept)
    found: dict[str, Any] = json.loads(kept.read_text("utf-8"))
    return found


def _take_away(old: Iterable[Path]) -> None:
    for one in old:
        if one.is_dir():
            shutil.rmtree(one, ignore_errors=True)
        else:
            one.unlink(missing_ok=True)


def _people(line: sqlite3.Connection, size: Size, rows: dict[str, Any]) -> None:
    """Branches, each with its people and a history."""
    branches = range(1, size.branches + 1)
    line.executemany(
        "INSERT INTO desk_branch VALUES (:id, :name, '', 150, 1.0, '{}')",
        [{"id": b, "name": f"Yard {b:02d}"} for b in branches],
    )
    roles = ("specialist", "specialist", "specialist", "technician", "manager")
    people = [
        {
            **rows["person"],
            "id": b * PEOPLE_EACH + n - 4,
            "username": f"{role}{n}-{b}",
            "role": role,
            "branch_id": b,
            "first_name": f"{role.title()} {n}",
        }
        for b in branches
        for n, role in enumerate(roles)
    ]
    _insert(line, "desk_person", people)
    told = [
        {
            "id": f"{b:016x}{n:016x}",
            "branch_id": b,
            "what": "person.invited",
            "data": "{}",
            "by_id": b * PEOPLE_EACH,
            "at": _day_text(-n),
        }
        for b in branches
        for n in range(60)
    ]
    _insert(line, "desk_branchevent", told)


def _insert(line: sqlite3.Connection, table: str, rows: list[dict[str, Any]]) -> None:
    names = ", ".join(f'"{name}"' for name in rows[0])
    line.executemany(f"INSERT INTO {table} ({names}) VALUES ({', '.join(f':{name}' for name in rows[0])})", rows)


def _midnight() -> int:
    return int(datetime.combine(date.today(), time(), UTC).timestamp())


def _day_text(day: int) -> str:
    return datetime.fromtimestamp(_midnight() + day * 86400, UTC).strftime("%Y-%m-%d %H:%M:%S")


def _vans(line: sqlite3.Connection, size: Size, rows: dict[str, Any]) -> None:
    """Every van has the sheet of one of the models with its own chassis number; ``diary`` says for each van what its handover is like."""
    _copy_of(line, "van_model", [model["van"] for model in rows["models"]])
    _copy_of(line, "handover_model", [model["handover"] for model in rows["models"]])
    span = round(size.vans / size.branches * _DENSE)
    line.execute(
        """CREATE TEMP TABLE diary AS
        WITH RECURSIVE n(n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM n WHERE n < :vans),
        d AS (SELECT n, 1 + (n - 1) % :branches AS b, n % 3 AS m,
          (n - 1) / :branches * :span / (:vans / :branches) - :span + :ahead AS day FROM n)
        SELECT n, b, m, day, :midnight + day * 86400 + (9 + n * 7 % 8) * 3600 + n % 4 * 900 AS due,
          (day < 0 AND NOT (day > -15 AND (n / :branches) % 13 = 0)) OR (day = 0 AND (n / :branches) % 2 = 0) AS signed,
          day > -:recent AND day <= 0 AS whole, (b - 1) * :people + 1 + n % 3 AS person FROM d""",
        {
            "vans": size.vans,
            "branches": size.branches,
            "span": span,
            "ahead": _AHEAD_DAYS,
            "midnight": _midnight(),
            "recent": max(1, span // _FULL_TENTH),
            "people": PEOPLE_EACH,
        },
    )
    own = {
        "id": "n",
        "branch_id": "b",
        "chassis_number": _CHASSIS,
        "stock_number": "printf('K%05d', n)",
        "sheet": f"replace(sheet, chassis_number, {_CHASSIS})",
        "added": "datetime(diary.due - 30 * 86400, 'unixepoch')",
    }
    _multiply(line, "desk_van", "van_model", own)


def _copy_of(line: sqlite3.Connection, table: str, rows: list[dict[str, Any]]) -> None:
    """A table of the rows that are multiplied; the row for each ``m``."""
    line.execute(f"CREATE TEMP TABLE {table} (m INTEGER PRIMARY KEY, {', '.join(rows[0])})")
    _insert(line, table, [{"m": m, **row} for m, row in enumerate(rows)])


def _multiply(line: sqlite3.Connection, table: str, model: str, own: dict[str, str]) -> None:
    """One row for each line of the diary: ``own`` columns by their SQL, all others as in the model."""
    names = [name for _, name, *_ in line.execute(f"PRAGMA table_info({table})")]
    chosen = ", ".join(own.get(name, f'{model}."{name}"') for name in names)
    line.execute(
        f"INSERT INTO {table} ({', '.join(names)}) SELECT {chosen} FROM diary JOIN {model} USING (m) ORDER BY n"
    )


def _handovers(line: sqlite3.Connection) -> None:
    own = {
        "id": "n",
        "van_id": "n",
        "owner_name": "printf('Owner %d', n)",
        "due": "datetime(diary.due, 'unixepoch')",
        "specialist_id": "person",
        "plan": "CASE WHEN day BETWEEN -30 AND 30 AND n % 7 > 0 THEN plan END",
        "signed": "CASE WHEN diary.signed THEN datetime(diary.due + 7200, 'unixepoch') END",
        "record": "CASE WHEN diary.signed THEN record END",
        "record_digest": "CASE WHEN diary.signed THEN record_digest ELSE '' END",
    }
    _multiply(line, "desk_handover", "handover_model", own)
    line.execute(
        """INSERT INTO desk_question (handover_id, words, asked, answer, answered, answered_by_id)
        SELECT n, 'How do I drain the boiler?', datetime(due + 86400, 'unixepoch'), CASE WHEN n % 200 THEN 'As the card says.' ELSE '' END,
          CASE WHEN n % 200 THEN datetime(due + 90000, 'unixepoch') END, CASE WHEN n % 200 THEN person END
        FROM diary WHERE signed AND n % 10 = 0"""
    )
    line.execute(
        """INSERT INTO desk_ownerlink (handover_id, digest, made, expires) SELECT n, printf('%064x', n), datetime(due, 'unixepoch'),
          datetime(due + 400 * 86400, 'unixepoch') FROM diary WHERE signed"""
    )


_ID = "printf('%08x%04x40008000%012x', n, {k}, n * 7919 + {k})"
_DASHED = "printf('%08x-%04x-4000-8000-%012x', n, {k}, n * 7919 + {k})"


def _events(line: sqlite3.Connection, size: Size, rows: dict[str, Any]) -> None:
    """Copies of the models' events, with ids of their own, without indexes while they come in; then notes up to the number wanted."""
    line.execute(
        "CREATE TEMP TABLE told (m, k, what, before, ref, after, offset, device, number, live, PRIMARY KEY (m, k)) WITHOUT ROWID"
    )
    line.executemany(
        "INSERT INTO told VALUES (:m, :k, :what, :before, :ref, :after, :offset, :device, :number, :live)",
        rows["events"],
    )
    indexes = line.execute(
        "SELECT name, sql FROM sqlite_master WHERE type = 'index' AND tbl_name = 'desk_event' AND sql IS NOT NULL"
    ).fetchall()
    for name, _ in indexes:
        line.execute(f'DROP INDEX "{name}"')
    line.execute(
        f"""INSERT INTO desk_event (id, van_id, handover_id, what, data, by_id, at, received, device, number)
        SELECT {_ID.format(k="k")}, n, CASE WHEN live OR what LIKE 'handover.%' OR what LIKE 'record.%' THEN n END, what,
          CASE WHEN ref IS NULL THEN before ELSE before || {_DASHED.format(k="ref")} || after END, person,
          datetime(due + offset, 'unixepoch'), datetime(due + offset + 1, 'unixepoch'),
          CASE WHEN live THEN printf('bench-%d', n) ELSE '' END, number
        FROM diary JOIN told USING (m)
        WHERE (signed OR what <> 'record.signed') AND (day <= 0 OR NOT live) AND (signed OR NOT live OR number < 150)
          AND (whole OR k < {_FEW})
        ORDER BY n, k"""
    )
    have = line.execute("SELECT count(*) FROM desk_event").fetchone()[0]
    short = size.events - have
    if short < 0:
        raise RuntimeError(f"the copies alone are {have} events, more than the {size.events} wanted")
    each = -(-short // size.vans)
    line.execute(
        f"""INSERT INTO desk_event (id, van_id, what, data, by_id, at, received, device, number)
        WITH RECURSIVE j(j) AS (SELECT {_TOP_UP} UNION ALL SELECT j + 1 FROM j WHERE j < {_TOP_UP + each - 1})
        SELECT {_ID.format(k="j")}, n, 'note', '{{"words": "Washed and moved along the yard."}}', person,
          datetime(due - j * 5000, 'unixepoch'), datetime(due - j * 5000, 'unixepoch'), '', 0
        FROM diary CROSS JOIN j LIMIT {short}"""
    )
    for _, made in indexes:
        line.execute(made)


def _look_over(line: sqlite3.Connection, size: Size) -> None:
    for table, wanted in (("desk_van", size.vans), ("desk_branch", size.branches), ("desk_event", size.events)):
        found = line.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
        if found != wanted:
            raise RuntimeError(f"{table} has {found} rows, not {wanted}")
    broken = line.execute("PRAGMA foreign_key_check").fetchone()
    if broken:
        raise RuntimeError(f"a row points nowhere: {broken}")
