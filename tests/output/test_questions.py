"""Open questions: the same asked of several things at one place is one; what decides most comes first; a long list is cut."""

from planlint import check
from planlint.output.check.page import report_page
from planlint.output.check.questions import MOST_ASKED, MOST_LINES, question_lines
from planlint.report import Report

BEDROOM = """plan "Plover Lane cottage"
  edition 2020
building house
  use one-family
place bed-1
  building house; use bedroom
panel house-panel
  bus 200 A
circuit bed-circuit
  panel house-panel; breaker 15 A; poles 1; cable 14/2 copper NM-B; length 50 ft; use general; protection afci
"""
RECEPTACLE = "receptacles plug-{}\n  at bed-1; circuit bed-circuit; rating 15 A; serves general; tamper-resistant yes\n"
SIX = BEDROOM + "".join(RECEPTACLE.format(number) for number in range(1, 7))


def asked_of(report: Report) -> list[tuple[str, str, str]]:
    """Every question: the place, the first of the elements asked, and what is asked."""
    lines = question_lines(report.open_checks)
    return [
        (need.at, need.subject.name, need.note or need.attribute)
        for line in lines
        for question in line.questions
        for need in question.needs[:1]
    ]


def section(report: Report, whole: bool = False) -> str:
    """The open questions as they are printed, each paragraph on one line."""
    text = report_page(report, 110, all_questions=whole).plain()
    return " ".join(text.partition("OPEN QUESTIONS")[2].partition("\n\n")[0].split())


def test_a_room_is_asked_once_whatever_the_number_of_its_receptacles() -> None:
    one, six = check(BEDROOM + RECEPTACLE.format(1)), check(SIX)
    assert sorted(asked_of(one)) == sorted(asked_of(six))
    assert one.counts()["open_questions"] == six.counts()["open_questions"]
    assert ("", "bed-1", "sink") in asked_of(six)
    assert not any("distance" in what for _, _, what in asked_of(six))
    assert "6 receptacles at bed-1, lines 11, 13, 15, 17, 19, 21: 13 checks wait gfci, switched" in section(six)


def test_what_the_room_answers_is_asked_no_more() -> None:
    said = SIX.replace("use bedroom", "use bedroom; sink no; tub no; moisture dry; receptacle-within 6 ft")
    report = check(said)
    assert not any(name == "bed-1" for _, name, _ in asked_of(report))
    assert not any(what == "gfci" for _, _, what in asked_of(report))


def test_receptacles_of_two_rooms_are_two_questions() -> None:
    two = SIX.replace("panel house-panel\n", "place bed-2\n  building house; use bedroom\npanel house-panel\n", 1)
    two += "".join(RECEPTACLE.format(number).replace("at bed-1", "at bed-2") for number in (7, 8))
    assert {place for place, _, what in asked_of(check(two)) if what == "gfci"} == {"bed-1", "bed-2"}


def test_what_feeds_a_panel_is_asked_and_not_whether_all_is_shown() -> None:
    panel = 'plan "Plover Lane cottage"\n  edition 2020\npanel house-panel\n  bus 200 A; interrupting 22 kA\n'
    report = check(panel)
    assert ("", "house-panel", "which service or feeder ends at house-panel") in asked_of(report)
    fault = next(waiting for waiting in report.open_checks if waiting.rule == "breaker-below-available-fault")
    assert [need.note for need in fault.needs] == ["which service or feeder ends at house-panel"]


def test_what_may_not_matter_comes_after_what_decides_whether_it_does() -> None:
    """Where nothing shows that a receptacle wants a GFCI, its room is asked first and then the receptacle whether it has one."""
    order = [what for _, name, what in asked_of(check(SIX)) if name in ("bed-1", "plug-1")]
    assert order.index("sink") < order.index("gfci")


def test_what_one_half_is_broken_for_comes_first_then_the_number_of_corrections() -> None:
    report = check(SIX)
    lines = question_lines(report.open_checks)
    weights = [line.weight for line in lines]
    assert weights == sorted(weights)
    halves = [any(check.half_broken for check in line.first.values()) for line in lines]
    assert halves == sorted(halves, reverse=True) and any(halves) and not all(halves)


def test_a_long_list_is_cut_and_says_so_and_the_option_shows_all() -> None:
    trenches = "".join(f"trench ditch-{number}\n  under yard\nholes row-{number}\n  through stud\n" for number in range(9))
    report = check(SIX + trenches + "meter post\n  rating 200 A\nload kiln\n  type kiln\nbox one\n  type device\n")
    lines = question_lines(report.open_checks)
    assert len(lines) > MOST_LINES and max(len(line.questions) for line in lines) > MOST_ASKED
    shown = sum(min(len(line.questions), MOST_ASKED) for line in lines[:MOST_LINES])
    rest = sum(len(line.questions) for line in lines) - shown
    assert f"{rest} more questions come after these. All of them" in section(report)
    assert "more questions come after these" not in section(report, whole=True)
    whole = section(report, whole=True)
    for line in lines:
        for question in line.questions:
            need = question.needs[0]
            assert (need.note or f"{need.attribute}: ") in whole, need
    assert "main: its main breaker, or lugs only (a current or the word lugs, like" in whole


def test_nothing_is_lost_between_the_records_and_the_list() -> None:
    """Every need of every check that waits is among the questions, or a topic of which all has to be shown."""
    report = check(SIX)
    listed = {
        (need.subject, need.note or need.attribute)
        for line in question_lines(report.open_checks)
        for question in line.questions
        for need in question.needs
    }
    needs = [need for waiting in report.open_checks for need in waiting.needs]
    assert listed == {(need.subject, need.note or need.attribute) for need in needs if not need.complete}
    topics = {need.complete for need in needs if need.complete}
    assert all(topic in section(report).partition("say so under plan: complete")[2] for topic in topics)
