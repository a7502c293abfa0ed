"""What is said after a check: what was right, by name; then one question, and never the answer."""

from collections.abc import Sequence

from offgrid_core.practice.mistakes import Mistake, worst_first
from offgrid_core.practice.problem import Problem
from offgrid_core.practice.slot import FieldMark, Marks
from offgrid_core.practice.words import listed, say
from offgrid_core.worksheet import Finding


def of_steps(problem: Problem, marks: tuple[FieldMark, ...], score: float, dangers: Sequence[Finding] = ()) -> Marks:
    """Put the marks of steps into sentences.

    Parameters
    ----------
    marks
        One a step, in worked order.
    score
        0 to 1.
    dangers
        Limits of danger that the learner's own numbers break.
    """
    right = [f"{m.label}, {m.shown}" for m in marks if m.verdict == "right"]
    blank = [m.label for m in marks if m.verdict == "unanswered"]
    if len(blank) == len(marks):
        return Marks(marks, (say("nothing", step=blank[0]),), 0.0, False)
    if len(right) == len(marks):
        return Marks(marks, (say("all_right", steps=listed(right)),), score, True)
    unsafe = [say("unsafe", label=found.label, worked=found.worked) for found in dangers]
    said = [say("credit", steps=listed(right))] if right else []
    said += [say("reenter", quantity=m.label, reason=m.reason) for m in marks if m.verdict == "reenter"]
    question, asking = _one_prompt(problem, marks)
    said += [*unsafe, *asking]
    said += [say("carried", quantity=m.label) for m in marks if m.verdict in ("carried", "senseless")]
    said += [say("moot", quantity=m.label) for m in marks if m.verdict == "moot"]
    if blank and not question:
        said.append(say("rest", steps=listed(blank)))
    return Marks(marks, tuple(said), score, False, question)


def about(mark: FieldMark, found: Mistake) -> list[str]:
    """Return the credit and the one question of a named mistake."""
    said = [say("credit_of_mistake", quantity=mark.label, credit=found.credit)] if found.credit else []
    said.append(say("ask", quantity=mark.label, value=mark.shown, question=found.question))
    if len(mark.explanations) > 1:
        said.append(say("ambiguous"))
    elif mark.explanations and len(mark.explanations[0]) > 1:
        said.append(say("pair"))
    return said


def consequences(ids: tuple[str, ...]) -> list[str]:
    """Return what mended mistakes would have meant on site: told for the dangerous ones only."""
    return [say("consequence", consequence=m.consequence) for m in worst_first(ids) if m.severity == "danger"]


def _one_prompt(problem: Problem, marks: tuple[FieldMark, ...]) -> tuple[str, list[str]]:
    """Return the question and the sentences around it, about the worst mistake or the first step that is off."""
    for mark in marks:
        # to notice that a value cannot be is the skill: it comes before any other question
        if mark.verdict == "senseless":
            return (asked := say("senseless", quantity=mark.label, value=mark.shown)), [asked]
    nameable = {m.explanations[0][0]: m for m in reversed(marks) if m.verdict == "mistake" and m.named}
    if nameable:
        in_order = [m.explanations[0][0] for m in marks if m.verdict == "mistake" and m.named]
        worst = worst_first(dict.fromkeys(in_order))[0]
        mark = nameable[worst.id]
        if len(mark.explanations) > 1:
            worst = worst_first(ids[0] for ids in mark.explanations)[0]
        return worst.question, about(mark, worst)
    for place, mark in enumerate(marks):
        if mark.verdict == "unit":
            question = say("unit")
        elif mark.verdict == "inconsistent":
            return (said := say("inconsistent", quantity=mark.label, value=mark.shown)), [said]
        elif mark.verdict in ("unexplained", "mistake") and not mark.named:
            missing = listed([m.label for m in marks[:place] if m.verdict in ("unanswered", "reenter")])
            return (said := say("steps_first", quantity=mark.label, steps=missing)), [said]
        elif mark.verdict == "unexplained":
            question = problem.slot.hint
        else:
            continue
        return question, [say("ask", quantity=mark.label, value=mark.shown, question=question)]
    return "", []
