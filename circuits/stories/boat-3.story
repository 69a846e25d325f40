# The lanyard clip is pulled with the key in ON. Invented.
# Fault: none
ON 1 s, START 1 s, release 3 s
S2 on 4 s                       # joins the same stop wire to ground
