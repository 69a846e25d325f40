# The switch of the interior lamp sticks. Invented.
# Fault: S10 stuck closed
key out 5 days  # 0.83 A out of 70 Ah
