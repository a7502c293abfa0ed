"""Whatever is typed is read or refused: it is never run, never hangs, never crashes."""

import time

from hypothesis import given, settings
from hypothesis import strategies as st

from offgrid_core.practice import Answer, draw, mark, slots
from offgrid_core.quantities import Settings

PROBLEMS = {id_: draw(slot) for id_, slot in slots().items()}
NASTY = [
    "__import__('os').system('true')", "9**9**9", "=1+1", "=cmd|' /C calc'!A0", "{{7*7}}", "${7*7}", "1e400", "-1e400",
    "NaN", "nan", "inf", "-∞", "0x1f", "1_000", "1,234", "1.234,5", "١٢٣", "½", "Ⅷ", "1\u202e2", "\u200f12", "12\x00",
    "\x1b[31m1", "<script>alert(1)</script>", '{"a": [1, {"b": 2}]}', "[" * 500, "(" * 2000, "9" * 70,
    "1" * 10_000_000, "1e-999", "--1", "+-1", "1 2 3", "12 Wh", "12W h", "1/0", "lambda: 0", "\ud800", "a" * 65,
    " " * 100, "\n12\n", "12\t",
]  # fmt: skip
TYPED = st.one_of(
    st.sampled_from(NASTY),
    st.text(max_size=80),
    st.text(alphabet="0123456789.,-+eE*/()[]{}'\"_ ×÷−", max_size=40),
    st.floats(allow_nan=True, allow_infinity=True).map(repr),
    st.integers(-(10**30), 10**30).map(str),
)
UNITS = st.one_of(st.sampled_from(["", "Wh", "kWh", "Ah", "V", "°C", "°F", "%", "W"]), st.text(max_size=8))


@settings(max_examples=1000, deadline=None)
@given(data=st.data())
def test_anything_may_be_typed_into_any_field(data):
    """A thousand examples of five cards each."""
    for _ in range(5):
        type_anything(data)


def type_anything(data):
    problem = PROBLEMS[data.draw(st.sampled_from(sorted(PROBLEMS)))]
    unit = Settings(decimal=data.draw(st.sampled_from([".", ","])))
    fields = [f.id for f in problem.slot.fields(problem, unit)]
    typed = {f: Answer(data.draw(TYPED), data.draw(UNITS)) for f in fields}
    marks = mark(problem, typed, unit)
    assert 0 <= marks.score <= 1
    assert all(isinstance(said, str) and said for said in marks.feedback)
    assert mark(problem, typed, unit) == marks


def test_no_text_takes_long():
    """Each of the worst, into every field of every problem, within a quarter of a second."""
    for problem in PROBLEMS.values():
        fields = [f.id for f in problem.slot.fields(problem, Settings())]
        for text in NASTY:
            begun = time.process_time()
            marks = mark(problem, dict.fromkeys(fields, Answer(text, "Wh")), Settings())
            assert time.process_time() - begun < 0.25, (problem.slot.id, text[:30])
            assert not marks.finished or marks.fields[0].verdict == "locked"


def test_what_is_no_number_is_asked_for_again_and_not_called_wrong():
    problem = PROBLEMS["L05-3"]
    refused = [t for t in NASTY if mark(problem, {"spell_wh": Answer(t, "Wh")}).of("spell_wh").verdict == "reenter"]
    for text in (
        "9**9**9",
        "1e400",
        "NaN",
        "1" * 10_000_000,
        "__import__('os').system('true')",
        "1\u202e2",
        "=1+1",
        "1,234",
    ):
        assert text in refused, text[:40]
