# The work lamps were forgotten. Invented.
# Fault: none
S8 on
key out 16 h  # 9 A out of 95 Ah
