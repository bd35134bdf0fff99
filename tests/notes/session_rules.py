"""What is said after a session, for every combination of what can be noted, printed to be read through.

    python -m tests.notes.session_rules

First the table of rules with their words and where they come from, then every combination with what may come next and
which rules say so, then the words on the screen for each kind of answer.
"""

from collections.abc import Iterator
from itertools import product

from app.pages.buildup.rule_words import ACTION_WORDS, CLOSED_WORDS, REASONS, SOURCES, SOURCES_TOLD, advice_lines
from model.session_rules import RULES, Advice, Facts, JointPain, Notes, Soreness, advise

PAIN = {
    "none": JointPain("", 0, 0, 0, 0),
    "nothing entered": JointPain(),
    "only before entered": JointPain("", 0),
    "morning not entered": JointPain("", 0, 0, 0, None),
    "before the first throw": JointPain("elbow", 2, None, None, 0),
    "while throwing": JointPain("elbow", 0, 2, 0, 0),
    "an hour after": JointPain("shoulder", 0, 0, 2, 0),
    "while throwing, morning not entered": JointPain("elbow", 0, 2, 0, None),
    "next morning": JointPain("elbow", 0, 0, 0, 2),
    "while throwing, 5 of 10": JointPain("elbow", 0, 5, 0, 0),
}
ROWS = {
    "first": (1, True),
    "first, never painless": (1, False),
    "second in a row": (2, True),
    "third in a row": (3, True),
}
SORENESS = {
    "none": Soreness(False, False, False, False),
    "warm-up": Soreness(True, False, False, False),
    "stayed": Soreness(True, True, False, False),
    "later": Soreness(False, False, True, True),
    "over three days": Soreness(False, False, False, False, over_three_days=True),
}
OTHER: dict[str, dict[str, object]] = {
    "": {},
    "painkiller": {"painkiller": True},
    "painkiller not entered": {"painkiller": None},
    "speed not held": {"speed_held": False},
    "swelling": {"signs": ("swelling",)},
    "cold hand": {"signs": ("cold_hand",)},
}


def combinations() -> Iterator[tuple[tuple[str, ...], Facts]]:
    """Every combination, by what it is called."""
    for (pain, joint), (row, (count, painless)), (sore, muscles), (other, more) in product(
        PAIN.items(), ROWS.items(), SORENESS.items(), OTHER.items()
    ):
        notes = Notes(joint, muscles, **({"painkiller": False} | more))  # type: ignore[arg-type]
        if notes.painful or row == "first":
            in_a_row = count if notes.painful else 0
            yield (pain, row, sore, other), Facts(notes, 12, in_a_row, painless)


def line(named: tuple[str, ...], advice: Advice) -> str:
    """A combination in a line."""
    off = "–" if advice.days_off is None else str(advice.days_off)
    rules = " + ".join(rule.key for rule in (advice.rule, *advice.also))
    pain, row, sore, other = named
    return f"{pain:36} {row:22} {sore:16} {other:23} {ACTION_WORDS[advice.action]:42} {off:>3}  {rules}"


def main() -> None:
    """Print all of it."""
    print("RULES, the strictest that applies decides\n")
    for rule in RULES:
        off = "–" if rule.days_off is None else str(rule.days_off)
        print(f"{rule.key:16} {ACTION_WORDS[rule.action]:42} {off:>3} days off  {SOURCES[rule.source]}")
        print(f"{'':16} {REASONS[rule.key]}")
    print(
        f"\n{SOURCES_TOLD}\n\nEVERY COMBINATION: joint pain, how often, soreness, other → the most, days off, rules\n"
    )
    shown: dict[tuple[str, ...], list[str]] = {}
    for named, facts in combinations():
        advice = advise(facts)
        print(line(named, advice))
        lines = advice_lines(advice, facts)
        if named[2] != "none" and named[3]:
            continue  # the words are those of either, one below the other
        shown.setdefault(tuple(lines), []).append(" / ".join(part for part in named if part))
    print("\nTHE WORDS ON THE SCREEN, once each, with the first combination that they answer\n")
    for lines_shown, where in shown.items():
        print(f"[{where[0]}]{f' and {len(where) - 1} more' if where[1:] else ''}")
        print("\n".join(f"    {one}" for one in lines_shown))
    print("\nWHY THERE IS NO NEXT SESSION\n")
    for key, words in CLOSED_WORDS.items():
        print(f"{key:14} {words}")


if __name__ == "__main__":
    main()
