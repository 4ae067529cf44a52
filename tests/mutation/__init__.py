"""A spot check of the tests: small faults are put into the package, one at a time, and each should be noticed."""
