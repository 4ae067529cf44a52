"""What a casebook teaches: better numbers, whether they predict better, and rules worth writing.

A casebook holds spoiled presses only. What is learnt is a chance among the jobs that come to the bench, never a
rate among all that is pressed.
"""
