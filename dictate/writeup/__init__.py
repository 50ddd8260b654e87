"""Mentions -> record: ids, which machine, which side of the repair, what belongs together."""
