"""Every lesson as a text: its arc, its cells, its exercises, its links, and nothing left behind in it."""

import json
import re
from pathlib import Path

import pytest

from offgrid_core.practice import slots
from offgrid_core.practice.kinds import Choose
from offgrid_core.system import read_plan, size, whole_chain
from offgrid_core.system.explore import one_day

LESSONS = Path(__file__).resolve().parents[1] / "lessons"
NOTEBOOKS = sorted(LESSONS.glob("*.ipynb"))
TAUGHT = [p for p in NOTEBOOKS if not p.name.startswith("00_")]
ARC = ("Guess", "Explore", "Worked", "Your turn", "Practise", "Judge", "Before you go", "What we learned")


@pytest.fixture(params=NOTEBOOKS, ids=lambda p: p.stem)
def notebook(request):
    return json.loads(request.param.read_text(encoding="utf-8"))


@pytest.fixture(params=TAUGHT, ids=lambda p: p.stem)
def taught(request):
    return request.param.stem, json.loads(request.param.read_text(encoding="utf-8"))


def text_of(cell):
    return "".join(cell["source"])


def prose(notebook):
    return "\n".join(text_of(c) for c in notebook["cells"] if c["cell_type"] == "markdown")


def code(notebook):
    return [text_of(c) for c in notebook["cells"] if c["cell_type"] == "code"]


def test_there_are_lessons():
    assert {p.stem for p in NOTEBOOKS} >= {"00_start_here", "01_loads", "05_temperature"}


def test_head_says_what_one_can_do_what_is_needed_and_how_long_it_takes(notebook):
    head = text_of(notebook["cells"][0])
    assert re.match(r"# .*\?\n", head), "the title is a question"
    outcomes = re.findall(r"^\d\. ", head, re.MULTILINE)
    assert 3 <= len(outcomes) <= 5
    assert "*Needs:*" in head
    assert re.search(r"\*Minutes:\* \d+", head)


def test_the_arc_is_whole_and_in_order(taught):
    heads = re.findall(r"^## (.*)$", prose(taught[1]), re.MULTILINE)
    places = [next(i for i, h in enumerate(heads) if h.startswith(stage)) for stage in ARC]
    assert places == sorted(places)


def test_every_problem_of_the_lesson_is_in_it_once_and_known(taught):
    name, notebook = taught
    asked = re.findall(r'(?:exercise|guess)\("([^"]+)"\)', "\n".join(code(notebook)))
    assert sorted(asked) == sorted(i for i in slots() if i.startswith(f"L{name[:2]}-"))


def test_recall_faded_and_exit_have_their_number(taught):
    asked = " ".join(code(taught[1]))
    for stage, count in (("recall", 3), ("faded", 2), ("exit", 6), ("slip", 1)):
        assert len(re.findall(rf"-{stage}", asked)) == count


def test_cells_are_short(notebook):
    lengths = sorted(len(c.splitlines()) for c in code(notebook))
    assert lengths[-1] <= 18
    assert lengths[len(lengths) // 2] <= 3


def test_cautions_come_before_the_first_panel(notebook):
    joined = "\n".join(code(notebook))
    assert 0 <= joined.find("caution(") < joined.find("_panel(", joined.find("hut ="))


def test_sources_and_the_last_word_are_there(notebook):
    assert "## Where the numbers come from" in prose(notebook)
    assert "Design exercise. Local code and a licensed person decide." in prose(notebook)


def test_no_saved_state_no_machine_path_and_the_usual_kernel(notebook):
    assert "widgets" not in notebook["metadata"]
    assert notebook["metadata"]["kernelspec"]["name"] == "python3"
    assert not re.search(r"(/home/|/root/|/tmp/|[A-Z]:\\\\)", json.dumps(notebook))


def test_output_is_kept_only_where_it_is_checked_and_there_it_is(notebook):
    for cell in notebook["cells"]:
        if cell["cell_type"] == "code":
            checked = "NBVAL_CHECK_OUTPUT" in text_of(cell)
            assert bool(cell["outputs"]) == checked, text_of(cell)


def test_links_lead_somewhere(notebook):
    for target in re.findall(r"\]\(([^)#]+)\)", prose(notebook)):
        assert (LESSONS / target).exists(), target


def test_sentences_are_short_enough_to_read_aloud(notebook):
    plain = re.sub(r"^\|.*$|`[^`]*`|[*_#]", "", prose(notebook), flags=re.MULTILINE)
    sentences = [s.split() for s in re.split(r"(?<=[.?!:])\s+", plain) if len(s.split()) > 2]
    assert sum(map(len, sentences)) / len(sentences) < 15
    assert max(map(len, sentences)) <= 45


def right_option(slot_id):
    place = slots()[slot_id]
    assert isinstance(place, Choose)
    return next(option.text for option in place.options if option.right)


def test_the_readings_asked_for_are_what_the_panels_show(plans):
    hut = size(read_plan(plans / "fell_hut.toml"))
    strings = {t: whole_chain(hut, {"battery_temp_c": float(t)}).at("strings_count") for t in range(-20, 1)}
    assert right_option("L05-explore") == f"−{-min(t for t, n in strings.items() if n == 2)} °C"
    assert strings[-10] == 3

    def idle_leads(watts):
        energy = dict(one_day(hut, {"inverter_idle_w": float(watts), "inverter_on_h": 24.0}).at_battery())
        return energy["inverter, only for being on"] > energy["lamps"]

    assert right_option("L01-explore") == f"{min(w for w in range(60) if idle_leads(w))} W"
