# A sound boat is started at the jetty and stopped by its key. Invented.
# Fault: none
ON 2 s
START 1 s
release 5 s  # the flywheel makes the spark from here
OFF 3 s      # the key closes the stop wire to ground
