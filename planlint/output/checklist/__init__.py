"""The checklist of each inspection, as a page of text."""
