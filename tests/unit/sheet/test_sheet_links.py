"""Which kit fills which link, and what a sheet leaves unknown, in words."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from firstpitch.sheet import BuildSheet, Kit, LinkGap, SheetError, Unknown, resolve_links, unknowns

from .conftest import KINDS

Read = Callable[..., BuildSheet]
LAST = "    height: 1.20 m\n"
NOTE = "    note: The switch is inside the wardrobe.\n"


def more(*kits: tuple[str, str]) -> tuple[str, str]:
    """A change that adds kit, each an id and a kind, at the end of the list."""
    return LAST, LAST + "".join(f"  - {{id: {i}, kind: {k}, name: N, at: [3 m, 0 m]}}\n" for i, k in kits)


def test_only_candidate_fills_a_link(read: Read) -> None:
    """With one chimney on the van the urn's chimney need not be named."""
    assert resolve_links(read().kit, KINDS).filled["urn"]["chimney"] == ("chimney",)


def test_sheet_chooses_among_several(read: Read) -> None:
    """With two chimneys the one that the sheet names is taken."""
    sheet = read(more(("second", "chimney")), (NOTE, "    links: {chimney: second}\n"))
    assert resolve_links(sheet.kit, KINDS).filled["urn"]["chimney"] == ("second",)


def test_link_of_several_kinds(read: Read) -> None:
    """A link that two kinds can fill takes the only kit of either."""
    assert resolve_links(read(more(("ledge", "shelf"))).kit, KINDS).filled["urn"]["stand"] == ("ledge",)


@pytest.mark.parametrize("number", [0, 1, 3])
def test_link_for_every(read: Read, number: int) -> None:
    """A link that stands for every kit of a kind takes none, one or all of them, in sheet order."""
    hooks = [f"h{n}" for n in range(number)]
    sheet = read(more(*((hook, "hook") for hook in hooks)))
    assert resolve_links(sheet.kit, KINDS).filled["urn"]["hooks"] == tuple(hooks)


@pytest.mark.parametrize("open_link", ["", " ~", " null"])
def test_link_left_open(read: Read, open_link: str) -> None:
    """A link left open is filled as if it were not written."""
    sheet = read((NOTE, f"    links:\n      chimney:{open_link}\n"))
    assert resolve_links(sheet.kit, KINDS).filled["urn"]["chimney"] == ("chimney",)


def test_gap_is_a_result(read: Read) -> None:
    """A van without a chimney is no bad sheet: the urn's link stays empty and is listed, must and may apart."""
    sheet = read(("kind: chimney", "kind: hook"))
    links = resolve_links(sheet.kit, KINDS)
    assert links.filled["urn"] == {"chimney": (), "stand": (), "hooks": ("chimney",)}
    assert links.must_gaps == (LinkGap("urn", "chimney", ("chimney",), "must"),)
    assert links.gaps == (*links.must_gaps, LinkGap("urn", "stand", ("tripod", "shelf"), "may"))


def test_kit_is_never_its_own_candidate() -> None:
    """A kit whose link asks for its own kind is not linked to itself."""
    from firstpitch.sheet.types import LinkSpec

    from .conftest import FakeKind

    kinds = {"lamp": FakeKind("Lamp", links={"next": LinkSpec("next", ("lamp",))})}
    one, other = (Kit(i, "lamp", i, 0.0, 0.0, None, {}, {}) for i in ("one", "other"))
    assert resolve_links([one], kinds).must_gaps[0].kit == "one"
    assert resolve_links([one, other], kinds).filled["one"]["next"] == ("other",)


def test_links_of_kit_made_elsewhere() -> None:
    """Kit that did not come from a sheet is judged by the same rules."""
    kit = [Kit("urn", "urn", "Urn", 0.0, 0.0, None, {}, {"chimney": "flue"})]
    with pytest.raises(SheetError) as fault:
        resolve_links(kit, KINDS)
    assert fault.value.faults == [
        "kit.urn.links.chimney: there is no kit with the id “flue”; name one of the kind “Chimney”."
    ]


def test_unknown_in_words(read: Read) -> None:
    """What is unknown is said in words; what results need comes before what is only nice to know."""
    sheet = read(
        ('      badge: "No. 7"\n', ""),
        ("  dealer: Hollowbridge Caravans\n", ""),
        ("      limit: 50 kg\n", ""),
        ("      power: 850 W\n", ""),
        ("    height: 1.20 m\n", ""),
        ("  noseweight_limit: 100 kg\n", ""),
    )
    assert [(u.field, u.words, u.need) for u in unknowns(sheet, KINDS)] == [
        ("masses.noseweight_limit", "noseweight limit of the van", "must"),
        ("plan.lockers.bed-box.limit", "Box under the bed: most mass the locker may hold", "must"),
        ("kit.urn.facts.power", "Tea urn: mains power", "must"),
        ("van.dealer", "dealership that hands it over", "may"),
        ("kit.chimney.height", "Chimney: height above the ground", "may"),
        ("kit.urn.facts.badge", "Tea urn: what its badge says", "may"),
    ]


def test_unknown_with_what_it_blocks(read: Read) -> None:
    """What an unknown figure blocks is what the asker says of it; kit and fact are given to it apart."""

    def blocks(unknown: Unknown) -> list[str]:
        return ["how long the water takes to heat"] if (unknown.kit, unknown.fact) == ("urn", "power") else []

    sheet = read(("      power: 850 W\n", ""), ("  axle_limit: 1300 kg\n", ""))
    found = {unknown.field: unknown.blocks for unknown in unknowns(sheet, KINDS, blocks)}
    assert found == {"masses.axle_limit": (), "kit.urn.facts.power": ("how long the water takes to heat",)}
