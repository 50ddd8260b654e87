"""What a number without a unit is a value of, by the words around it.

label_reach      which labels reach to it, and what they mean there
electric_talk    volts, amps, ohms and microfarads by what is spoken of
warmth_talk      temperatures by what is spoken of
with_power_off   ohms that go on from part to part while the power is off
one_of_many      amps of one of several that are called by their number
in_a_test        levels and minutes of a test under way
bare_numbers     asks these in their order
"""
