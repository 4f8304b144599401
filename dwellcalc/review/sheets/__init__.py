"""A sheet that was written as JSON: worked out again from what it prints, and by the rules that are there now."""
