# A sound tractor: nothing without the clutch, then heated and started; the key does not stop it. Invented.
# Fault: none
ON 1 s, START 1 s, release 1 s  # clutch up: silence
S3 pressed                      # clutch down
HEAT 10 s
START 1.5 s
release 5 s
OFF 3 s                         # runs on: the knob stops it
