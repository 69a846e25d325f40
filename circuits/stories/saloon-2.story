# The coil of the pump relay is open: cranks, and never fires. Invented.
# Fault: K3.coil open
ON 3 s       # no hum
START 3 s
release 2 s
0
