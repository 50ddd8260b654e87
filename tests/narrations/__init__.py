"""The labelled narrations and what reads their labels."""
