"""How many examples of a property are tried: fewer daily where each takes long, all of them by ``--thorough``."""

from hypothesis import settings


def daily(few: int, *, of: int) -> settings:
    """So many examples every day, of so many that ``./dev test --thorough`` tries."""
    thorough = settings.get_current_profile_name() == "thorough"
    return settings(max_examples=of if thorough else few)
