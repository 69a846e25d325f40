# Five days with the isolator off, then somebody closes it and goes home. Invented.
# Fault: none
S8 on           # isolator switch opened
key out 5 days  # 55 mA
S8 off 18 days  # 0.48 A
