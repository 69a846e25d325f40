# The lid switch sticks: the interior lamp empties the board battery in a night. Invented.
# Fault: S4 stuck closed
key out 1 day  # 0.44 A out of 7 Ah
