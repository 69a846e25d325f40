# A key that the cluster does not know: terminal 50 is live, and the starter keeps silent. Invented.
# Fault: none
S11 on              # another key at the ring
S2 pressed, ON 2 s
START 2 s
release 2 s
