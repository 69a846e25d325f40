# The clutch switch does not close. Invented.
# Fault: S3 open
S3 pressed, HEAT 5 s  # heater works
START 2 s             # silence
release 1 s
