"""Files on the disk: read with a limit, written whole or not at all."""
