# The door switch sticks: the interior lamp burns behind shut doors. Invented.
# Fault: S14 stuck closed
key out 10 days  # 0.44 A out of 50 Ah
