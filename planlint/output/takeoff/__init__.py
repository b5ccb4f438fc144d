"""The material list: as a page of text, as a table, and as a record for programs."""
