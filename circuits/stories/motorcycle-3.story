# Left in P over night: tail and instrument lamp are on. Invented.
# Fault: none
P 20 h  # 0.7 A out of 9 Ah
