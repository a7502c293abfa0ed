"""Every lesson as a text: its arc, its cells, its exercises, its links, its words, and nothing left behind in it."""

import json
import re
from pathlib import Path

import pytest

from offgrid_core.lab.course import lessons
from offgrid_core.lab.glossary import explained
from offgrid_core.practice import slots

LESSONS = Path(__file__).resolve().parents[1] / "lessons"
NOTEBOOKS = sorted(LESSONS.glob("*.ipynb"))
ORDER = lessons(LESSONS / "lessons.toml")
#: Lessons that teach: not the start page, the glossary, the gates and the workbench.
TAUGHT = [p for p in NOTEBOOKS if re.match(r"(?!00)\d\d_", p.name)]
ARC = (
    *("Guess", "What you know already", "Explore", "Worked", "Your turn", "Practise", "Judge", "Before you go"),
    *("What we learned", "Where the numbers come from", "Words"),
)
#: The last lesson has no new matter: it is one piece of work and what is asked about it.
CAPSTONE = "14_whole"
ITS_ARC = (
    *("Recall", "What you know already", "The client", "Build", "The year", "Judge", "A fault in your own design"),
    *("Ten minutes of questions", "Hand it over", "What we learned", "Where the numbers come from", "Words"),
)
#: How many places of each stage a lesson has, and the last one.
PLACES = {"recall": 3, "guess": 1, "entry": 4, "explore": 1, "faded": 2, "exit": 6}
ITS_PLACES = dict.fromkeys(PLACES, 0) | {"recall": 3, "entry": 4}
#: What a lesson's cell calls, and the places of its lesson that it shows.
SHOWN = re.compile(r'(exercise|guess|explore|entry_check|exit_quiz|unit_gate|my_fault)\("([^"]+)"')
#: Grade of school at which a text reads easily; 12 years of age is grade 6 to 7.
GRADE = 6.5
_UNITS = r"(?:°C|°F|k?Wh|Ah|W|V|A|%|mV|K|m|mm²|years|days|h|hours|minutes)"
_NUMBER = re.compile(rf"(?<![\w.,])(\d[\d\u2009 ]*(?:[.,]\d+)?)\s?{_UNITS}(?!\w)")
#: Words of the trade that want explaining; whoever uses one in a lesson explains it in the glossary.
TRADE = (
    *("power", "energy", "loads list", "duty", "standby", "inverter", "idle draw", "surge", "volt-ampere"),
    *("string", "bank", "days of autonomy", "depth of discharge", "state of charge", "cycle life", "capacity kept"),
    *("set-point", "absorption", "float", "array", "module", "design month", "peak sun hours", "tilt", "derating"),
    *(
        "charge controller",
        "open-circuit voltage",
        "voltage drop",
        "fuse",
        "breaker",
        "ampacity",
        "interrupting rating",
    ),
    *("bus bar", "power factor", "loss of load", "discount rate", "present worth"),
)


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


def plain(notebook):
    """Return the running text: no tables, headings, code or marks of emphasis."""
    return re.sub(r"^\|.*$|^#.*$|`[^`]*`|[*_]", "", prose(notebook), flags=re.MULTILINE)


def sentences(text):
    return [s.split() for s in re.split(r"(?<=[.?!:])\s+", text) if len(s.split()) > 2]


def syllables(word):
    stem = re.sub(r"(?:[^laeiouy]es|ed|[^laeiouy]e)$|^y", "", word.lower())
    return max(1, len(re.findall(r"[aeiouy]{1,2}", stem)))


class TestCourse:
    def test_lists_every_notebook_once(self):
        assert sorted(x.file for x in ORDER) == [p.name for p in NOTEBOOKS]
        assert len({x.id for x in ORDER}) == len(ORDER)

    def test_needs_stand_before(self):
        for i, lesson in enumerate(ORDER):
            assert set(lesson.needs) <= {x.id for x in ORDER[:i]}, lesson.file

    def test_every_problem_belongs_to_a_lesson(self):
        assert {s.lesson for s in slots().values()} <= {x.id for x in ORDER}

    def test_each_outcome_is_shown_by_problems_of_its_lesson(self):
        for lesson in ORDER:
            if lesson.shown or lesson.file in {p.name for p in TAUGHT}:
                head = text_of(json.loads((LESSONS / lesson.file).read_text(encoding="utf-8"))["cells"][0])
                assert len(re.findall(r"^\d\. ", head, re.MULTILINE)) == len(lesson.shown), lesson.file
                assert all(lesson.shown), lesson.file
                every = {i for ids in lesson.shown for i in ids}
                assert every <= {i for i, s in slots().items() if s.lesson == lesson.id}, lesson.file

    def test_each_lesson_leads_to_the_next(self):
        for path in TAUGHT:
            last = text_of(json.loads(path.read_text(encoding="utf-8"))["cells"][-1])
            assert "*Next:*" in last, path.name
            assert path == TAUGHT[-1] or re.search(rf"lesson {int(path.name[:2]) + 1}\b", last), path.name


def test_head_says_what_one_can_do_what_is_needed_and_how_long_it_takes(notebook):
    head = text_of(notebook["cells"][0])
    assert re.match(r"# .*\?\n", head), "the title is a question"
    outcomes = re.findall(r"^\d\. ", head, re.MULTILINE)
    assert 3 <= len(outcomes) <= 5 or "Glossary" in head
    assert "*Needs:*" in head
    assert re.search(r"\*Minutes:\* \d+", head)


def test_the_arc_is_whole_and_in_order(taught):
    heads = re.findall(r"^## (.*)$", prose(taught[1]), re.MULTILINE)
    arc = ITS_ARC if taught[0] == CAPSTONE else ARC
    places = [next(i for i, h in enumerate(heads) if h.startswith(stage)) for stage in arc]
    assert places == sorted(places)


def test_every_problem_of_the_lesson_is_in_it_once_and_known(taught):
    name, notebook = taught
    asked = []
    for call, id_ in SHOWN.findall("\n".join(code(notebook))):
        quiz = {"entry_check": "entry", "exit_quiz": "exit"}.get(call)
        asked += [i for i, s in slots().items() if s.lesson == id_ and s.quiz == quiz] if quiz else [id_]
    assert sorted(asked) == sorted(i for i in slots() if i.startswith(f"L{name[:2]}-"))


def test_recall_faded_and_exit_have_their_number(taught):
    own = [i for i in slots() if i.startswith(f"L{taught[0][:2]}-")]
    for stage, count in (ITS_PLACES if taught[0] == CAPSTONE else PLACES).items():
        assert sum(i.partition("-")[2].startswith(stage) for i in own) == count, stage
    assert sum("-slip" in i for i in own) >= (taught[0] != CAPSTONE)


def test_cells_are_short(notebook):
    lengths = sorted(len(c.splitlines()) for c in code(notebook))
    assert lengths[-1] <= 18
    assert lengths[len(lengths) // 2] <= 3


def test_cautions_come_before_the_first_panel(notebook):
    before, _, _ = re.split(r"(\w+_panel)\(|$", "\n".join(code(notebook)), maxsplit=1)
    assert "caution(" in before


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
    lengths = [*map(len, sentences(plain(notebook)))]
    assert sum(lengths) / len(lengths) < 15
    assert max(lengths) <= 45


def test_text_reads_easily(notebook):
    """Flesch-Kincaid grade (Kincaid et al. 1975, from memory), syllables counted by their vowels."""
    text = plain(notebook)
    words = re.findall(r"[A-Za-z][A-Za-z'’-]*", text)
    grade = 0.39 * len(words) / len(sentences(text)) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59
    assert grade <= GRADE


def test_a_hard_text_is_seen():
    text = (
        "Notwithstanding considerations of electrochemical irreversibility, practitioners systematically overestimate."
    )
    words = text.split()
    assert 0.39 * len(words) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59 > 2 * GRADE


def test_numbers_of_the_text_stand_in_its_cells_or_its_test(taught):
    """A number with a unit is asserted or printed beside the text, is in a plan, or is in the lesson's own test."""
    name, notebook = taught
    outputs = json.dumps([c["outputs"] for c in notebook["cells"] if c["cell_type"] == "code"], ensure_ascii=False)
    files = [*(LESSONS / "plans").glob("*.toml"), Path(__file__).with_name(f"test_lesson_{name[:2]}.py")]
    known = "\n".join([*code(notebook), outputs, *(f.read_text(encoding="utf-8") for f in files if f.exists())])
    known = known.replace("_", "").replace("\u2009", "")
    numbers = {re.sub(r"[\u2009 ]", "", n) for n in _NUMBER.findall(plain(notebook))}
    assert not {n for n in numbers if not re.search(rf"(?<![\d.]){re.escape(n)}(?!\d)", known)}


def test_words_of_the_trade_are_explained(notebook):
    text = plain(notebook).casefold()
    used = {word for word in TRADE if re.search(rf"\b{re.escape(word)}s?\b", text)}
    assert used <= set(explained())


def test_words_are_shown_where_they_are_met_first(taught):
    assert re.search(r"\bwords\(", "\n".join(code(taught[1])))


def test_half_of_the_lessons_let_something_be_broken():
    broken = [p.name for p in TAUGHT if re.search(r"\bbreak\b", p.read_text(encoding="utf-8"), re.IGNORECASE)]
    assert len(broken) >= len(TAUGHT) / 2
