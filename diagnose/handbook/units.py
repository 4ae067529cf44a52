"""Settings in the shop's own unit first, with the other beside it."""

from diagnose.dialogue.speech.spans import seconds as seconds
from diagnose.dialogue.speech.spans import temperature as temperature
