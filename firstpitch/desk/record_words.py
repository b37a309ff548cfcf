"""A record in words, for the page and the PDF alike."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.utils import timezone

from firstpitch.desk.snags import WORDS
from firstpitch.papers.programme import clock, minutes_words
from firstpitch.papers.record import (
    FactLine,
    LeftLine,
    LetGo,
    NoteLine,
    NotShownLine,
    OverrideLine,
    RecordData,
    ShownLine,
    Signed,
    SnagLine,
)

Row = Mapping[str, Any]
_GROUP = 8


def record_in_words(record: Row, digest: str = "") -> RecordData:
    """The record as it is printed, times by the clock of the desk's place; ``digest`` once it is signed."""
    let_go = record.get("let_go")
    return RecordData(
        van=record["van"],
        owner=record["owner"],
        dealership=record["dealership"],
        facts=_facts(record),
        several=len(record["people"]) > 1,
        let_go=LetGo(let_go["name"], let_go["reason"], tuple(let_go["snags"])) if let_go else None,
        unsettled=tuple(record["unsettled"]),
        overridden=tuple(
            OverrideLine(_time(r["at"]), _step(r), r["harm"], r["reason"], r["by"]) for r in record["overridden"]
        ),
        snags=tuple(map(_snag, record["snags"])),
        left_out=tuple(LeftLine(_step(r), r["reason"], r["by"], r["must"]) for r in record["left_out"]),
        not_shown=_not_shown(record),
        notes=_notes(record),
        shown=tuple(map(_shown, record["shown"])),
        tried=sum(row["tried"] for row in record["shown"]),
        signed=_signed(record, digest),
    )


def _local(text: str) -> datetime:
    return timezone.localtime(datetime.fromisoformat(text))


def _time(text: str) -> str:
    return f"{_local(text):%H:%M}"


def _day(text: str) -> str:
    local = _local(text)
    return f"{local.day} {local:%B %Y}"


def _step(row: Row) -> str:
    return f"{row['kit']}: {row['title']}" if row["kit"] else str(row["title"])


def _facts(record: Row) -> tuple[FactLine, ...]:
    began, ended = record["began"], record["ended"]
    found = {
        "Owner": record["owner"],
        "Handed over by": ", ".join(record["people"]) or record["specialist"],
        "Day": _day(began or record["due"]),
        "From, to": f"{_time(began)} to {_time(ended)}" if began else "not begun",
        "Chassis number": record["chassis_number"],
        "Stock number": record["stock_number"],
        "Build sheet": f"version {record['sheet_version']}",
        "Planned": minutes_words(record["planned_s"]) if record["planned_s"] else "no plan kept",
        "Took": minutes_words(record["took_s"]) if record["took_s"] else "",
        "Photos": str(record["photos"] or ""),
        "Notes taken back": str(record["taken_back"] or ""),
    }
    return tuple(FactLine(what, value) for what, value in found.items() if value)


def _shown(row: Row) -> ShownLine:
    planned = "" if row["planned_s"] is None else clock(row["planned_s"])
    return ShownLine(
        _time(row["began"]), row["kit"], row["title"], clock(row["took_s"]), planned, row["tried"], row["by"]
    )


def _not_shown(record: Row) -> tuple[NotShownLine, ...]:
    kits: dict[str, list[Row]] = {}
    for row in record["not_shown"]:
        kits.setdefault(row["kit"], []).append(row)
    return tuple(
        NotShownLine(kit, "; ".join(row["title"] for row in rows), due=any(row["must"] for row in rows))
        for kit, rows in kits.items()
    )


def _snag(row: Row) -> SnagLine:
    about = f"{row['kit']}: {row['words']}" if row["kit"] else row["words"]
    mended = ""
    if row["mended"]:
        mended = ", ".join(part for part in (_day(row["mended"]), row["mended_by"], row["mended_words"]) if part)
    raised = f"{_day(row['at'])} {_time(row['at'])}{', ' + row['by'] if row['by'] else ''}"
    open_stop = row["severity"] == "stop" and not row["mended"]
    return SnagLine(WORDS.get(row["severity"], WORDS["care"]), about, raised, mended, open_stop)


def _notes(record: Row) -> tuple[NoteLine, ...]:
    rows = [(r["at"], _found(r), r["by"]) for r in record["found"]]
    rows += [(r["at"], r["words"], r["by"]) for r in record["changes"]]
    rows += [(r["at"], f"{r['about']}: {r['words']}" if r["about"] else r["words"], r["by"]) for r in record["notes"]]
    return tuple(NoteLine(_time(at), words, who) for at, words, who in sorted(rows))


def _found(row: Row) -> str:
    return f"Found: {row['what']}: {row['value']}. {row['reason']}"


def _signed(record: Row, digest: str) -> Signed | None:
    signature = record.get("owner_signature")
    if not signature:
        return None
    how = "Signed on the glass" if signature["how"] == "drawn" else "Typed, and confirmed as the signature"
    when = f"on {_day(record['signed'])} at {_time(record['signed'])}"
    groups = " ".join(digest[i : i + _GROUP] for i in range(0, len(digest), _GROUP))
    return Signed(signature["name"], how, signature["path"], record["confirmed_by"], when, groups)
