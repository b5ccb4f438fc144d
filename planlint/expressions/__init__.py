"""The rule language: an expression is parsed, checked against names and types that are handed in, and compiled."""
