# A sound saloon is started and stopped. Invented.
# Fault: none
ON 3 s       # pump for two seconds
START 1.5 s  # blower and wiper drop out
release 5 s
0 3 s
