"""The learner's file: whole or not at all, never lost to another notebook, set aside when damaged."""

import json
import threading
import time

import pytest

from offgrid_core import files
from offgrid_core.errors import OffgridError
from offgrid_core.practice import Answer, draw, mark, shared_file, slots
from offgrid_core.practice.record import Entry, Record


@pytest.fixture
def record(tmp_path):
    return Record(tmp_path / "my-work")


def put(record, slot="L05-4", text="125"):
    return record.change(slot, lambda e: e.typed("for_cold_ah", Answer(text, "Ah")))


class TestKeeping:
    def test_nothing_yet(self, record):
        assert record.entry("L05-4") == Entry()
        assert not record.path.exists()

    def test_there_and_back(self, record):
        problem = draw(slots()["L05-4"])
        marks = mark(problem, {"for_cold_ah": Answer("125", "Ah")})
        put(record)
        kept = record.change("L05-4", lambda e: e.checked(marks).helped(1))
        again = Record(record.path.parent).entry("L05-4")
        assert again == kept
        assert again.answers == {"for_cold_ah": Answer("125", "Ah")}
        assert again.checks[0].mistakes == ("TE-02",)
        assert again.checks[0].verdicts == {"for_cold_ah": "mistake"}
        assert (again.tries, again.rung, again.owed) == (1, 1, False)

    def test_next_variant_begins_empty_and_keeps_the_history(self):
        marks = mark(draw(slots()["L05-4"]), {"for_cold_ah": Answer("125", "Ah")})
        entry = Entry().typed("for_cold_ah", Answer("125", "Ah")).checked(marks).helped(3)
        assert entry.owed
        renewed = entry.renewed()
        assert (renewed.attempt, renewed.answers, renewed.tries, renewed.owed) == (1, {}, 0, False)
        assert len(renewed.checks) == 1

    def test_it_is_plain_json_in_the_learners_folder(self, tmp_path, monkeypatch):
        monkeypatch.setenv("OFFGRID_FOLDER", str(tmp_path / "here"))
        put(Record(), text="<b>1 234,5</b>")
        held = json.loads((tmp_path / "here" / "practice.json").read_text(encoding="utf-8"))
        assert held["slots"]["L05-4"]["answers"] == {"for_cold_ah": {"text": "<b>1 234,5</b>", "unit": "Ah"}}

    def test_a_long_text_is_cut_and_stays_refused(self, record):
        put(record, text="1" * 10_000_000)
        assert record.path.stat().st_size < 1000
        kept = record.entry("L05-4").answers["for_cold_ah"]
        assert mark(draw(slots()["L05-4"]), {"for_cold_ah": kept}).fields[0].verdict == "reenter"


class TestPowerCut:
    @pytest.mark.parametrize("step", ["fsync", "replace"])
    def test_old_file_or_new_file(self, record, monkeypatch, step):
        put(record, text="100")
        before = record.path.read_bytes()

        def cut(*_):
            raise KeyboardInterrupt

        monkeypatch.setattr(files.os, step, cut)
        with pytest.raises(KeyboardInterrupt):
            put(record, text="999")
        monkeypatch.undo()
        assert record.path.read_bytes() == before
        assert {p.name for p in record.path.parent.iterdir()} <= {"practice.json", ".practice.json.lock"}
        assert put(record, text="101").answers["for_cold_ah"].text == "101"

    def test_a_half_written_copy_beside_does_no_harm(self, record):
        put(record, text="100")
        (record.path.parent / ".practice.json-abc").write_text('{"slots": {"L05-4"')
        assert record.entry("L05-4").answers["for_cold_ah"].text == "100"

    def test_a_lock_file_left_by_a_crash_locks_nobody_out(self, record):
        put(record)
        record.path.with_name(".practice.json.lock").touch()
        begun = time.monotonic()
        put(record, text="7")
        assert time.monotonic() - begun < 1
        assert record.entry("L05-4").answers["for_cold_ah"].text == "7"

    def test_a_lock_in_use_is_waited_for_then_said(self, record, monkeypatch):
        put(record)
        monkeypatch.setattr(shared_file, "_WAIT", 0.05)
        with shared_file.locked(record.path), pytest.raises(OffgridError, match="in use by another notebook"):
            put(record)
        put(record, text="8")
        assert record.entry("L05-4").answers["for_cold_ah"].text == "8"


DAMAGED = [
    b"",
    b"{",
    b"\xff\xfe",
    b"[]",
    b"null",
    b'{"slots": 3, "version": 1}',
    b'{"slots": {"L05-4": {"attempt": "x"}}, "version": 1}',
    b'{"slots": {}, "version": 99}',
    b"[" * 100_000,
    b'{"slots": {"a": {"answers": {"b": 3}}}}',
]


class TestDamage:
    @pytest.mark.parametrize("content", DAMAGED, ids=range(len(DAMAGED)))
    def test_set_aside_with_a_message(self, record, content):
        record.path.parent.mkdir()
        record.path.write_bytes(content)
        with pytest.warns(UserWarning, match=r"could not be read .*it was kept as practice.json.damaged-1") as told:
            assert record.entries() == {}
        assert len(str(told[0].message)) < 500
        assert (record.path.parent / "practice.json.damaged-1").read_bytes() == content
        put(record)
        assert record.entry("L05-4").answers

    def test_a_second_damaged_file_is_kept_too(self, record):
        record.path.parent.mkdir()
        for n in (1, 2):
            record.path.write_bytes(b"{")
            with pytest.warns(UserWarning, match=f"damaged-{n}"):
                record.entries()

    def test_too_large_a_file(self, record):
        record.path.parent.mkdir()
        record.path.write_bytes(b" " * 9_000_000)
        with pytest.warns(UserWarning, match="more than"):
            record.entries()

    def test_a_file_that_cannot_be_read_is_left_alone(self, record):
        record.path.mkdir(parents=True)
        (record.path / "in it").touch()
        with pytest.raises(OffgridError, match="cannot be read"):
            put(record)
        assert (record.path / "in it").exists()

    def test_a_folder_that_cannot_be_made(self, tmp_path):
        (tmp_path / "file").write_text("")
        with pytest.raises(OffgridError, match="cannot be written"):
            put(Record(tmp_path / "file" / "my-work"))


def test_two_notebooks_keep_each_others_entries(tmp_path):
    """Two at once, each with its own Record, twenty answers each: none is lost, of one slot or of two."""
    ids = list(slots())[:20]

    def notebook(first):
        record = Record(tmp_path)
        for i in ids:
            record.change(f"{first}-{i}", lambda e: e.typed("x", Answer("1")))
            record.change("both", lambda e: e.typed(f"{first}-{len(e.answers)}", Answer("1")))

    both = [threading.Thread(target=notebook, args=(n,)) for n in "ab"]
    for t in both:
        t.start()
    for t in both:
        t.join()
    kept = Record(tmp_path).entries()
    assert set(kept) == {f"{n}-{i}" for n in "ab" for i in ids} | {"both"}
    assert len(kept["both"].answers) == 40
