# The load relief relay is welded and the blower was left on. Invented.
# Fault: K2 contact stuck closed
S5 at 3
key out 8 h  # 14 A out of 63 Ah
