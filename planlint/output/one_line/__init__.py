"""A one-line diagram on paper: from the records of what stands on it to sheets of lines and words, and to SVG."""
