"""The labelled recordings themselves are sound: every label means something on its van."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from tests.film.labelled import FORMATS, RECORDINGS, labels_of, read_spoken, recording
from tests.film.make_captions import captions_of, timed_words

NAMES = sorted(path.parent.name for path in RECORDINGS.glob("*/spoken.txt"))


@pytest.mark.parametrize("name", NAMES)
def test_every_label_exists_on_its_van(name: str) -> None:
    """Every point, caution, figure, step and kind named by a label is one of this van's."""
    one = recording(name)
    assert labels_of(one.spoken, one.brief)
    assert set(one.truth.points) == {point.key for point in one.brief.points}
    assert set(one.truth.cautions) == {due.key for due in one.brief.cautions}


@pytest.mark.parametrize("name", NAMES)
def test_headers_are_known(name: str) -> None:
    """Each recording says its speaker, style and noise, belongs to one half and has one format."""
    headers = read_spoken(name).headers
    assert headers["half"] in ("tuning", "final")
    assert headers["format"] in FORMATS
    assert all(headers[key] for key in ("speaker", "style", "noise"))


@pytest.mark.parametrize("name", NAMES)
def test_lines_follow_each_other(name: str) -> None:
    """Lines come in the order of their times, at a pace that a person can speak."""
    spoken = read_spoken(name)
    times = [utterance.at for utterance in spoken.utterances]
    assert times == sorted(times)
    assert 90 <= 60 * spoken.words / (times[-1] + 5) <= 230


@pytest.mark.parametrize("name", NAMES)
def test_states_agree(name: str) -> None:
    """What is said has a time, what is missing has none; a late caution comes after its act, one in time does not."""
    truth = recording(name).truth
    for point in truth.points.values():
        assert (point.at is None) == (point.state == "missing")
    for caution in truth.cautions.values():
        assert (caution.at is None) == (caution.state == "missing")
        if caution.at is not None and caution.act is not None:
            assert (caution.at > caution.act) == (caution.state == "late")


@pytest.mark.parametrize("name", NAMES)
def test_captions_are_those_of_the_text(name: str) -> None:
    """The captions beside a recording are what make_captions makes of its words."""
    spoken = read_spoken(name)
    assert spoken.captions.read_text("utf-8") == captions_of(spoken)


@pytest.mark.parametrize("name", NAMES)
def test_words_never_overlap(name: str) -> None:
    """Each word of the made captions begins when the one before has ended, or later."""
    words = timed_words(read_spoken(name))
    assert all(before.end <= after.start + 0.002 and before.start < before.end for before, after in pairwise(words))


def test_a_wrong_label_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A label for something that the van lacks is named with its line, not passed over."""
    from firstpitch.demo import sheets
    from tests.film import labelled

    folder = tmp_path / "wrong"
    folder.mkdir()
    (folder / "spoken.txt").write_text(
        "# speaker: a\n# style: b\n# noise: none\n# half: tuning\n# format: srt\n0:03 | open the door | door.unlocked#9\n",
        "utf-8",
    )
    monkeypatch.setattr(labelled, "RECORDINGS", tmp_path)
    with pytest.raises(ValueError, match=r"wrong 0:03 .*door.unlocked#9"):
        labelled.truth_of(labelled.read_spoken("wrong"), labelled.van_brief(sheets()["wren"]))
