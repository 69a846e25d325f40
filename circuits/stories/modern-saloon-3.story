# The body module never goes to sleep. Invented.
# Fault: A2 stays awake
key out 5 days  # 0.6 A instead of 24 mA
