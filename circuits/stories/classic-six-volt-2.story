# The points do not close: it turns as long as one likes. Invented.
# Fault: S5 open
ON 2 s
S2 on 3 s
S2 off 3 s
