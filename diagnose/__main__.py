"""``python -m diagnose`` runs the command."""

from diagnose.cli import main

main()
