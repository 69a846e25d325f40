# A sound board is started and switched off. Invented.
# Fault: none
ON 2 s       # T1 dull behind its ballast
START 2 s    # K2 bypasses it: T1 bright
release 2 s
OFF
