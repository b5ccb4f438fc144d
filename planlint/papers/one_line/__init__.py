"""The one-line diagram as records: the power's path, the grounding side, their labels, and where the findings belong."""
