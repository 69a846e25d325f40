# A sound motorcycle is started in neutral and stopped by its kill switch. Invented.
# Fault: none
ON 2 s
S3 on 1.5 s  # the button; the key has no START
S3 off 4 s
S2 on 3 s    # kill switch
