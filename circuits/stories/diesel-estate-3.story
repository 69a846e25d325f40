# The glow relay is welded: 54 A through the night. Invented.
# Fault: K1 contact stuck closed
key out 6 h  # 74 Ah do not last two hours
