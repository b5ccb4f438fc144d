"""What `rules/` says: tables, settings, rule records, and profiles resolved into the code that is in force."""
