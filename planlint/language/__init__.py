"""From the text of a plan to its elements: grammar, typed reading, include, every message about the text."""
