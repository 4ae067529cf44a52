"""How much the shipped numbers weigh against the shop's own cases.

Each weight is a number of cases: the shipped number counts as much as that many cases in which it held just so.
They were chosen by simulation (``tests/bench/learning.py``): with smaller ones the first ten or twenty cases can
make the predictions worse, with much larger ones a hundred cases make no difference.
"""

TURNS_UP = 25.0  # cases: how often a cause turns up
OF_A_KIND = 50.0  # cases: how often it does with one kind of item or press, against the shop's overall number
BRINGS = 25.0  # cases in which the cause was there: how surely it brings on the defect
SHOWS = 25.0  # cases in which the cause was there and the check was made
CURES = 12.0  # cases in which the fix was tried and the cause was there
MINUTES = 5.0  # times that the step was measured

LEAST_OF_A_KIND = 20  # cases of a kind of item, or on a press, before it gets numbers of its own
WORTH = 3.0  # nats that the cases of a kind must gain by a number of its own, as far as they tell
