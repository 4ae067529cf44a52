"""Plain colours by word, for trying things out without an instrument: round figures of our own, no standard's."""

from diagnose.press.colour.lab import Lab

PRINTS = {
    "black": Lab(18, 0, 0),
    "navy": Lab(22, 8, -35),
    "blue": Lab(38, 5, -48),
    "turquoise": Lab(55, -30, -28),
    "green": Lab(48, -42, 22),
    "yellow": Lab(85, 2, 78),
    "orange": Lab(65, 42, 60),
    "red": Lab(45, 60, 38),
    "pink": Lab(68, 42, 2),
    "purple": Lab(34, 38, -38),
    "brown": Lab(36, 18, 24),
    "grey": Lab(55, 0, 0),
}
GROUNDS = {
    "white": Lab(95, 0, 0),
    "cream": Lab(91, 1, 11),
    "natural": Lab(86, 2, 13),
    "pale grey": Lab(82, 0, 0),
    "pale blue": Lab(84, -3, -11),
    "pale pink": Lab(85, 11, 3),
    "pale yellow": Lab(92, -3, 30),
    "pale green": Lab(88, -12, 10),
    "grey": Lab(60, 0, 0),
    "navy": Lab(22, 8, -35),
    "black": Lab(16, 0, 0),
}
ALL = {**GROUNDS, **PRINTS}
