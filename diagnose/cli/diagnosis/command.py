"""``presslore diagnose``: the main job, as a dialogue or by flags."""

import sys
from pathlib import Path
from typing import Any

import click

from diagnose.cli.asking.prompts import ITEM_LETTERS, ITEM_QUESTION, Reply, ask_words
from diagnose.cli.completion import ids
from diagnose.cli.diagnosis.ahead import Ahead
from diagnose.cli.options import BOOK, FIGURE_FLAGS, figure_options, shop_option
from diagnose.cli.terminal.screen import both_terminals, screen_for


@click.command(
    epilog="\b\nExamples:\n  presslore diagnose\n"
    '  presslore diagnose "the mug is pale, 350F for 40 seconds"\n'
    '  presslore diagnose --item "tea towel" --saw "pale and doubled"\n'
    "  presslore diagnose --saw ghosting --answer edges-under-magnifier=edges-doubled --json\n"
    "  presslore diagnose --item mug --saw pale --set 385F --dwell 3min --probe 371F"
)
@click.argument("words", nargs=-1)
@click.option("--item", default="", shell_complete=ids("items"), help="What was pressed, in your own words or by id.")
@click.option(
    "--fact",
    "facts",
    multiple=True,
    metavar="FACT=VALUE",
    shell_complete=ids("facts"),
    help="A fact of the job: item.polyester=65.",
)
@click.option("--saw", multiple=True, shell_complete=ids("defects"), help="What is wrong, in your own words or by id.")
@click.option("--not-seen", multiple=True, shell_complete=ids("defects"), help="What you looked for and is not there.")
@click.option(
    "--answer",
    "answers",
    multiple=True,
    metavar="CHECK=OUTCOME",
    shell_complete=ids("answers"),
    help="The outcome of a check.",
)
@click.option("--cannot-tell", multiple=True, metavar="CHECK", shell_complete=ids("checks"), help="A check not to ask.")
@click.option("--tried", multiple=True, metavar="FIX", shell_complete=ids("fixes"), help="A fix that did not help.")
@click.option("--cannot-do", multiple=True, metavar="FIX", shell_complete=ids("fixes"), help="A fix not to propose.")
@click.option("--polyester", default="", metavar="SHARE", help="The cloth's share of polyester: 65%.")
@figure_options
@click.option("--used", multiple=True, metavar="KIND=WORDS", help="What was used: paper='the green box'; ink, blanks.")
@click.option("--press", default="", metavar="ID", help="The press it was pressed on, as shop.yaml calls it.")
@shop_option
@click.option(
    "--resume",
    is_flag=False,
    flag_value="choose",
    default="",
    metavar="[NAME]",
    help="Go on with a dialogue left before: the only one, the one of this name or in this file, or the last.",
)
@click.option("--discard", multiple=True, metavar="NAME", help="Delete a dialogue left before, and stop.")
@click.option("--save", "save_to", type=click.Path(path_type=Path, dir_okay=False), help="Where to keep the session.")
@click.option("--force", is_flag=True, help="With --save: take the place of a saved session that is there.")
@click.option("--no-recall", is_flag=True, help="Leave out what the shop knows of before.")
@click.option("--no-case", is_flag=True, help="Do not keep this one in the casebook.")
@BOOK
@click.option("--json", "as_json", is_flag=True, help="Print the diagnosis as JSON, and ask nothing.")
def diagnose(
    shop: Path | None,
    resume: str,
    discard: tuple[str, ...],
    save_to: Path | None,
    force: bool,
    no_recall: bool,
    no_case: bool,
    book: str,
    as_json: bool,
    **flags: Any,
) -> int:
    """Find out why a transfer went wrong.

    In a terminal this is a dialogue: a number answers; ? says why and how, u cannot tell, b back, w what is
    believed, s save and leave; words are heard at each question. At its end it is kept as a case in the casebook.
    With --json, or without a terminal, it asks nothing, prints what it knows and keeps nothing.

    WORDS are all of it at once, in your own words: the goods, what is wrong, heat and time, what you noticed.

    Each dialogue is saved as it goes, in a file of its own, until its case is kept: several may be left and gone on
    with. --resume lists them where there are several; none is deleted but by you (--discard NAME, or in the list).
    """
    if discard:
        from diagnose.cli.diagnosis.resuming import discard as delete

        return delete(discard)
    measured = {name: text for name in FIGURE_FLAGS if (text := flags.pop(name))}
    somebody = not as_json and both_terminals()
    ahead = Ahead(shop)
    first = None
    if somebody and flags["words"]:
        first = Reply(words=" ".join(flags.pop("words")))
    elif somebody and not resume and not save_to and not measured and not any(flags.values()):
        first = _first_answer()
    shelf, lexicon = ahead.ready()
    from diagnose.cli.asking.flags import Flags
    from diagnose.cli.diagnosis.consulting import Intake, answer, converse

    case = Intake(
        flags=Flags(**flags, measured=measured),
        shop=shop,
        resume=resume,
        save_to=save_to,
        force=force,
        book=book,
        keep=not no_case,
        recall=not no_recall,
    )
    if somebody:
        return converse(case, shelf, lexicon, first)
    return answer(case, shelf, lexicon, as_json=as_json)


def _first_answer() -> Reply:
    try:
        return ask_words(screen_for(sys.stdout), ITEM_QUESTION, ITEM_LETTERS, unshown="us")
    except EOFError:
        raise click.Abort from None
