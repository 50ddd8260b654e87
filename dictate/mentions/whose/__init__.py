"""Which thing and which words a value belongs to: what is under talk and under test.

whose_words  which words around a value belong to it: the labels, components and points of its zone
under_talk   which part a value is of that names none
subject      what is under test
things       parts of the machine named in a narration
series       one sentence: its values, labels and components, and which values make one list
taken        the readings as they are taken: what is kept of each, and the words that all steps share
"""
