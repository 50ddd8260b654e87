"""Phrases of the trade as patterns over words, and the words of a narration as patterns read them.

A pattern is a line of a vocabulary file. Its words are matched one after the other:

    power                      this word
    power/breaker/disconnect   one of these words
    kill!                      any form of the verb "kill"
    kill!ed                    only its past and participle forms
    kill!ing                   only its -ing form
    ?old                       a word that may be missing
    @nitrogen                  a phrase of the file's list
    ?@old                      a phrase that may be missing
    ~                          up to four words that do not begin a new thought (no "and", no comma, no full
                               stop)
    ~~                         up to eight such words
    ~,                         up to eight words of the same sentence
    #                          a number, in digits or words (one word or several)
    ^                          (only in front of the first word) nothing of the sentence stands before, small
                               words aside

The first word of a pattern is never optional and never a gap: patterns are looked up by it and by what
may stand behind it, and tried only where a word that they cannot do without is said. That keeps an hour of
speech under a second (spaCy's token matcher took three seconds for 12,000 words and 600 such patterns).
The first verb of a pattern ("!") is its head: its form and what stands before it tell whether the work was
done.

    verbs            the forms of a verb, and which form a word is
    words            the words of a narration without fillers and stutters, with the way back to the tokens
    lines            a line of a vocabulary file, compiled
    matching         many patterns over the words of a narration
"""

from __future__ import annotations

from dictate.mentions.patterns.lines import Pattern, compile_all, compile_pattern
from dictate.mentions.patterns.matching import Hit, Matcher, longest
from dictate.mentions.patterns.verbs import AMBIGUOUS, Form, forms_of_word, verb_forms
from dictate.mentions.patterns.words import FILLERS, NUMBER_WORDS, PUNCTUATION, SENTENCE_END, Words, words_of

__all__ = [
    "AMBIGUOUS",
    "FILLERS",
    "NUMBER_WORDS",
    "PUNCTUATION",
    "SENTENCE_END",
    "Form",
    "Hit",
    "Matcher",
    "Pattern",
    "Words",
    "compile_all",
    "compile_pattern",
    "forms_of_word",
    "longest",
    "verb_forms",
    "words_of",
]
