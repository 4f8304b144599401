"""Tables of interval data, in the layouts that utilities use."""
