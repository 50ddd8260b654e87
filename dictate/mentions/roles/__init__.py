"""Measured now, or wanted, printed, of an earlier visit, guessed: the role of each value.

roles            roles and relations
cues             the words that tell what a value is, and where they stand
spans            stretches of words in which every value has one role, whatever stands next to it
cue_words        questions about one cue
compared         bare numbers that are compared with a value: what it should be, or what a plate says
former_records   values of a former visit that are read out beside those of today
reported         values of before that somebody else told of
ratings          the role of a value: measured, or the rating of a plate or a part
rating_words     the words that tell a rating, a setting or a mere description from what was read
listed_ratings   stretches of words that repeat what is printed
described        values that only describe a part
markings         numbers that are printed, set or named and were not measured
capacitor_sizes  what is printed on a capacitor, told with the voltage that it is made for
conditions_told  temperatures at which a book or a chart holds
"""
