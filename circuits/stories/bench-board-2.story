# The start contact is welded: the starter turns before the key does, and nothing but the fuse ends it. Invented.
# Fault: S1.30-50 stuck closed
OFF 1 s      # turns already
ON 1 s
START 1 s
release 3 s  # the key springs back, the starter does not care
OFF 2 s
