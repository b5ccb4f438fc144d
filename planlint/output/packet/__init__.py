"""The pages: one paper, or all of a job's papers together, as one self-contained page that a browser shows and prints."""
