"""What a number without a unit is a value of, by the words around it: one look a module, joined in bare_numbers.py."""
