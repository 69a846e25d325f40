# Contact 15 is worn just where ON stands: fires, and dies when the key is released. Invented.
# Fault: S1.30-15 open at ON
S5 pressed, ON 8 s  # no glow lamp
START 1.5 s
release 4 s
