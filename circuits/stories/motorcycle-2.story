# In gear: nothing until the clutch is pulled; the stand kills the engine. Invented.
# Fault: none
S5 in gear, ON 1 s
S3 on 1 s           # nothing
S3 off 1 s
S4 pressed          # clutch
S3 on 1.5 s         # starts
S3 off 4 s
S6 on 3 s           # stand down
