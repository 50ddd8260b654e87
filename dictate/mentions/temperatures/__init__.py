"""Temperatures that no word of temperature stands beside, and what makes a number one.

unsaid        by their place, their pair, their moment
words_behind  words behind a number that make it a temperature, whoever reads them
"""
