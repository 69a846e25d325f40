# The fuse of the stop solenoid is blown: the key cannot stop the engine. Invented.
# Fault: F5 blown
ON 2 s, START 1.5 s, release 5 s
0 8 s                             # runs on
