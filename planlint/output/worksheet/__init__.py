"""The worksheet: as a page of text, as Markdown, and as a record for programs."""
