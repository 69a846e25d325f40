# A sound truck is started and stopped; the stop timer lets go after the engine stands. Invented.
# Fault: none
ON 2 s
START 1.5 s  # D+ takes the start relay out
release 5 s
0 8 s        # stop solenoid energised
