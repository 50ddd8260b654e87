"""Training and judging the second opinion on steps."""
