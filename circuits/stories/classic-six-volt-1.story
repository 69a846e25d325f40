# A sound car is started by its push and stopped by its key. Invented.
# Fault: none
ON 2 s
S2 on 1.5 s  # the push; the key has no START
S2 off 4 s   # the cut-out has closed: the dynamo charges
OFF 3 s
