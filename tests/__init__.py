"""The tests; a package so that its parts import one another by one name."""
