"""Was it done? Tense, negation, condition and hearsay around a verb or a noun of the work.

After the model of ConText (trigger, direction, scope, terminator), with lists of our own (scopes.toml)
and the verb's form as the trigger: a past form is done unless something before it says otherwise, a plain
form is what the word before it makes of it ("I'll braze", "had to braze", "didn't braze"), an -ing form
likewise.

    done       "brazed it in", "had to recover", "I've pulled a vacuum", "was charged with"
    planned    "I'm coming back to braze it", "needs a new drier", "still has to be evacuated"
    not_done   "didn't braze", "no brazing today", "never pulled a vacuum", "forgot to cap the ports"
    None       neither: a condition, a question, hearsay, advice, somebody else's work, a purpose
               ("got set up to braze")

Ask `scopes_of(words)`. Behind it:

    verbs           a verb: plain_forms, infinitives, past_forms (not_the_work, passives), ing_forms
    nouns           work named without a verb
    attempts        what was tried and came to nothing
    chains          verbs in a row: what the one before says of the one behind
    whose_doing     is it this technician's, on this job; reported: somebody else's account,
                    wishes: what somebody wanted
    conditions, plans, denials, telling   what else takes "done" away
"""

from __future__ import annotations

from dictate.mentions.tense.plain_forms import ENDING_LOST
from dictate.mentions.tense.scopes import Scopes, scopes_of
from dictate.mentions.tense.vocabulary import Status

__all__ = ["ENDING_LOST", "Scopes", "Status", "scopes_of"]
