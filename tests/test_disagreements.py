"""Where sources disagree: our line gives the value it says it follows, and none of the others."""

import pytest
from published.disagreements import DISAGREEMENTS, as_text


@pytest.mark.parametrize("row", DISAGREEMENTS, ids=lambda row: row.question)
def test_ours_is_the_value_it_says_it_follows(row):
    (followed, _), *others = row.values
    ours = row.ours()
    assert ours == pytest.approx(followed, rel=row.tol)
    for value, who in others:
        assert ours != pytest.approx(value, rel=row.tol), f"{who} says the same"


def test_every_row_says_who_and_why(capsys):
    assert len(DISAGREEMENTS) >= 36
    for row in DISAGREEMENTS:
        assert len(row.values) >= 2
        assert all(who for _, who in row.values)
        assert row.why
    assert len({row.question for row in DISAGREEMENTS}) == len(DISAGREEMENTS)
    with capsys.disabled():
        print(f"\nsources that disagree: {len(DISAGREEMENTS)} questions")
    table = as_text().splitlines()
    assert len(table) == len(DISAGREEMENTS) + 2
    assert {line.count("|") for line in table} == {5}
