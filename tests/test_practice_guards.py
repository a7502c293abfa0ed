"""Guards of follow-through: nothing left to decide, a value that cannot be, danger judged by its own consequence."""

from offgrid_core.practice import Answer, Problem, Step, mark
from offgrid_core.practice.kinds import Work
from offgrid_core.worksheet import Sheet, limit, line, up


@line("strings", standing="physics")
def strings_count(bank_needed_ah, unit_ah):
    return up(bank_needed_ah / unit_ah)


@line("current of the hardest string", standing="physics")
def hardest_a(bank_current_a, strings_count):
    return bank_current_a / strings_count * 1.2


@line("energy of the bank", standing="physics")
def bank_wh(bank_needed_ah, bank_voltage_v):
    return bank_needed_ah * bank_voltage_v


@line("cable's ampacity", standing="physics")
def ampacity_a(area_mm2):
    return 5 * area_mm2


@line("cable chosen", standing="physics")
def area_mm2(current_a):
    return current_a / 5


@limit("ampacity against the fuse", severity="danger", mend="choose a thicker cable", standing="standard", source="NEC")
def fuse_margin_a(ampacity_a, fuse_a):
    return ampacity_a - fuse_a


def work(**more) -> Problem:
    slot = Work(id="L99-1", title="A test", statement="", hint="Which one?", **more)
    return Problem(slot, slot.given, "by hand")


def answers(**typed):
    return {n: Answer(str(v), "") for n, v in typed.items()}


STRINGS = work(
    sheet=Sheet(strings_count, hardest_a),
    given={"bank_needed_ah": 700, "unit_ah": 300, "bank_current_a": 60},
    asked=(Step("strings_count"), Step("hardest_a")),
    moot={"hardest_a": ("strings_count", 2)},
    words={"bank_needed_ah": "bank", "unit_ah": "unit", "bank_current_a": "current"},
)


def test_a_step_with_nothing_left_to_decide_is_not_assessed():
    """Three strings share 60 A: the hardest has 24 A. Rounded to one string there is nothing to share."""
    assert mark(STRINGS, answers(strings_count=3, hardest_a=24)).finished
    alone = mark(STRINGS, answers(strings_count=1, hardest_a=72))
    assert alone.of("hardest_a").verdict == "moot"
    assert alone.score == 0
    assert any("not assessed" in said for said in alone.feedback)
    two = mark(STRINGS, answers(strings_count=2, hardest_a=36))
    assert two.of("hardest_a").verdict == "carried"
    assert two.score == 3 / 8


@line("bank", standing="physics")
def bank_needed_ah(energy_wh, bank_voltage_v):
    return energy_wh / bank_voltage_v


SENSE = work(
    sheet=Sheet(bank_needed_ah, bank_wh),
    given={"energy_wh": 7200, "bank_voltage_v": 24},
    asked=(Step("bank_needed_ah"), Step("bank_wh")),
    sense={"bank_wh": (100, 200_000)},
    words={"energy_wh": "energy"},
)


def test_a_carried_value_that_cannot_be_keeps_its_mark_and_is_asked_about_first():
    """0.3 Ah of house bank: 7.2 Wh follow from it rightly, and no such bank is on any site."""
    marks = mark(SENSE, answers(bank_needed_ah=0.3, bank_wh=7.2))
    found = marks.of("bank_wh")
    assert (found.verdict, found.method, found.accuracy) == ("senseless", True, False)
    assert "could you find that on a real site" in marks.question
    assert "7.2 Wh" in marks.question
    plain = mark(SENSE, answers(bank_needed_ah=200, bank_wh=4800))
    assert plain.of("bank_wh").verdict == "carried"


CABLE = work(
    sheet=Sheet(area_mm2, ampacity_a, fuse_margin_a),
    given={"current_a": 50, "fuse_a": 50},
    asked=(Step("area_mm2"), Step("ampacity_a")),
    words={"current_a": "current", "fuse_a": "fuse"},
)


def test_danger_is_judged_by_its_own_consequence_whatever_was_carried():
    """10 mm² carry 50 A behind a fuse of 50 A. From 6 mm², 30 A follows rightly, and the fuse lets 50 through."""
    assert mark(CABLE, answers(area_mm2=10, ampacity_a=50)).finished
    thin = mark(CABLE, answers(area_mm2=6, ampacity_a=30))
    assert thin.of("ampacity_a").verdict == "carried"
    assert not thin.finished
    assert any("Before anything is built" in said and "ampacity against the fuse" in said for said in thin.feedback)
    thick = mark(CABLE, answers(area_mm2=16, ampacity_a=80))
    assert not any("Before anything is built" in said for said in thick.feedback)


def test_honest_rounding_is_no_danger():
    """9.95 mm² is read as 10: what is right within the tolerance is not undone by the last figure."""
    marks = mark(CABLE, answers(area_mm2=9.95, ampacity_a=49.75))
    assert marks.finished
    assert not any("Before anything is built" in said for said in marks.feedback)
