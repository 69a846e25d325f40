# A sound saloon is started, stopped, locked and left until it sleeps. Invented.
# Fault: none
S2 pressed      # clutch down
ON 2 s          # pump for two seconds
START 1.5 s
release 5 s
OFF 3 s
key out 15 min  # one module after the other goes to sleep
