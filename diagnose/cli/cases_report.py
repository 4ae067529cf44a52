import click


@click.command(epilog="\b\nExample: presslore cases report")
def report() -> int:
    """Say what the cases add up to."""
    return 0
