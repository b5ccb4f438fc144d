"""What people and programs read: the report as text for a terminal and as JSON."""

CAUTION = (
    "This is a self-check, no approval: the code in force where you build and its authority decide. "
    "Work on supply conductors is for licensed people and the utility; much of it stays live with the main switched off."
)
