"""The report of a check: as a page of text, its open questions, and as a record for programs."""
