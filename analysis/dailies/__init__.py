"""A day's shots as a list to work through, read from the audit's document (schema leapwright-audit/1)."""
