"""The material list: what each statement of a plan needs bought, put together and rounded up to how it is sold."""
