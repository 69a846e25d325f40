# The pin of the stop wire is corroded through: neither key nor lanyard stops the engine. Invented.
# Fault: X1.3 open
ON 2 s, START 1 s, release 5 s
OFF 4 s                         # runs on
S2 on 4 s                       # runs on still
