"""Panel schedules: as a page of text and as a table."""
