# A sound van is started and switched off. Invented.
# Fault: none
LOCK
ON 2 s
START 1.5 s  # spark past the ballast
release 5 s  # spark through the ballast
LOCK 3 s
