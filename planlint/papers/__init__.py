"""The papers of a job, as plain records: each takes a docket and says what stands on the paper, none how it looks."""
