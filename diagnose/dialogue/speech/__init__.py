"""The words for what presslore knows: plain sentences from values, the same for screen, page and JSON."""
