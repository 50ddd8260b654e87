"""From what a person answers to an entry of the log: typed and spoken words are read as speech is.

    entry_for(record, base, reply, by, id, made_at, attempt) -> Correction

A typed value for a known reading is read by the number grammar, in its own unit where none is typed. An
answer to a question is put into the transcript where the question arose and read with everything around it;
a short one ("two pounds six") is also tried inside the sentences of `vocabulary/answers.toml`, and the first
one that closes the question counts. Nothing is guessed: what cannot be read is refused, in words that say how
to write it.

The way through the modules:

* what was sent (reply.py), by whom (who.py), and what reads it (entry.py);
* one key on the page or in the terminal: confirm, choose, done, set aside, take back (buttons.py);
* a value or a field that was typed for a known item (typed.py; values.py reads "about 38" and "OL");
* words, read as if they had been said (in_words.py), where they belong (places.py), and what came of them
  (brought.py); recorded ones are heard first (voice.py);
* the item that an answer is about, in a few words and as it stands after a change (items.py).
"""

from dictate.review.answers.brought import taken
from dictate.review.answers.entry import LONGEST_ANSWER, entry_for
from dictate.review.answers.in_words import names_machine, next_clip
from dictate.review.answers.items import describe
from dictate.review.answers.places import MOST_PLACES, MOST_WORDS, place_of, settle_place
from dictate.review.answers.reply import NotUnderstoodError, Reply, Try
from dictate.review.answers.values import read_value
from dictate.review.answers.voice import spoken
from dictate.review.answers.who import login

__all__ = [
    "LONGEST_ANSWER",
    "MOST_PLACES",
    "MOST_WORDS",
    "NotUnderstoodError",
    "Reply",
    "Try",
    "describe",
    "entry_for",
    "login",
    "names_machine",
    "next_clip",
    "place_of",
    "read_value",
    "settle_place",
    "spoken",
    "taken",
]
