# A sound estate is glowed, started and stopped. Invented.
# Fault: none
S5 pressed   # clutch down
ON 10 s      # glow lamp out after 8 s; the plugs go on glowing
START 1.5 s
release 5 s
S5 released
OFF 4 s      # the stop solenoid falls
