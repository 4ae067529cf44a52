"""Random troubles: seeded families for measuring, and a hypothesis strategy for laws."""

from random import Random

from hypothesis import strategies as st

from diagnose.reasoning.trouble import Action, PlannedQuestion, Trouble, Weights

FEW_QUESTIONS = (7, 6, 4)  # faults, actions, questions
MANY_QUESTIONS = (7, 5, 6)


def instance(seed: int, faults: int, actions: int, questions: int) -> Trouble:
    """A trouble of this size: imperfect actions on one to three faults, noisy questions, a call for help."""
    random = Random(seed)
    return Trouble(
        weights=_shares([random.expovariate(1.0) for _ in range(faults)]),
        actions=tuple(_action(random, f"a{number}", faults) for number in range(actions)),
        questions=tuple(_question(random, f"q{number}", faults) for number in range(questions)),
        call=random.uniform(15.0, 60.0),
        call_minutes=90.0,
    )


def _action(random: Random, name: str, faults: int) -> Action:
    cured = sorted(random.sample(range(faults), random.choice((1, 1, 1, 2, 2, 3))))
    cures = tuple((fault, random.uniform(0.5, 1.0)) for fault in cured)
    return Action(name, random.uniform(1.0, 10.0), cures, minutes=random.uniform(1.0, 20.0))


def _question(random: Random, name: str, faults: int) -> PlannedQuestion:
    yes = [random.uniform(0.7, 0.98) if random.random() < 0.4 else random.uniform(0.02, 0.2) for _ in range(faults)]
    return PlannedQuestion(name, random.uniform(0.3, 3.0), yes_or_no(yes), minutes=random.uniform(0.5, 5.0))


def yes_or_no(yes: list[float]) -> tuple[Weights, Weights]:
    """The likelihoods of a question with two outcomes, from the chance of "yes" under each fault."""
    return tuple(yes), tuple(1.0 - chance for chance in yes)


def _shares(parts: list[float]) -> Weights:
    return tuple(part / sum(parts) for part in parts)


_prices = st.floats(0.1, 20.0)


@st.composite
def troubles(draw: st.DrawFn, *, most_questions: int = 3, one_fault_each: bool = False) -> Trouble:
    """Small troubles of any kind; with ``one_fault_each``, actions that each cure a fault of their own."""
    faults = draw(st.integers(1, 5))
    weights = _shares(draw(st.lists(st.floats(0.01, 1.0), min_size=faults, max_size=faults)))
    places = st.integers(0, faults - 1)
    if one_fault_each:
        cured = [[fault] for fault in draw(st.sets(places, max_size=4))]
    else:
        cured = [sorted(each) for each in draw(st.lists(st.sets(places, min_size=1, max_size=3), max_size=4))]
    actions = tuple(
        Action(
            f"a{number}",
            draw(_prices),
            tuple((fault, draw(st.floats(0.05, 1.0))) for fault in each),
            draw(_prices),
        )
        for number, each in enumerate(cured)
    )
    chances = st.lists(st.floats(0.0, 1.0), min_size=faults, max_size=faults)
    questions = tuple(
        PlannedQuestion(f"q{number}", draw(st.floats(0.0, 5.0)), yes_or_no(draw(chances)), draw(_prices))
        for number in range(draw(st.integers(0, most_questions)))
    )
    return Trouble(weights, actions, questions, draw(st.floats(0.1, 100.0)), draw(_prices))
