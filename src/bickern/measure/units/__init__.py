"""Shop notation, read and printed: the only place that knows inches, gauges and fractions.

Inside bickern all values are coherent SI floats. Factors are exact.
"""
