"""Was it done? Tense, negation, condition and hearsay around a verb or a noun of the work.

After the model of ConText (trigger, direction, scope, terminator), with lists of our own (scopes.toml)
and the verb's form as the trigger: a past form is done unless something before it says otherwise, a plain
form is what the word before it makes of it ("I'll braze", "had to braze", "didn't braze"), an -ing form
likewise.

    done       "brazed it in", "had to recover", "I've pulled a vacuum", "was charged with" planned
    "I'm coming back to braze it", "needs a new drier", "still has to be evacuated" not_done   "didn't
    braze", "no brazing today", "never pulled a vacuum", "forgot to cap the ports" None       neither: a
    condition, a question, hearsay, advice, somebody else's work, a purpose ("got set up to braze")
"""

from __future__ import annotations

from functools import cache, cached_property
from typing import Any, Literal

from dictate.mentions.patterns import AMBIGUOUS, NUMBER_WORDS, Words, forms_of_word
from dictate.vocabulary.load import table, word_set

Status = Literal["done", "planned", "not_done"]

_BE = word_set("be_forms")
_SENTENCE_END = frozenset(".?!")
_COMPOUND = word_set("compound_halves")
_TELLING = frozenset(
    ["tell", "inform", "advise", "notify", "show", "brief", "warn", "explain", "mention", "discuss", "talk"]
)
_LIST_WORDS = frozenset((",", ":", ";", "and", "then", "-", "plus", "&", "or", "is", "'s", "we", "i", "be"))
_CLOSERS = frozenset((".", ":", ",", "!", "-", "is", "this", "here"))
_OURS_WORDS = frozenset(["i", "we", "i've", "we've", "i'd", "we'd", "i'm", "we're", "i'll", "we'll"])


@cache
def _data() -> dict[str, Any]:
    return table("scopes")


@cache
def _phrases(*path: str) -> dict[int, frozenset[tuple[str, ...]]]:
    """Return the phrases of a list by their length in words."""
    node: Any = _data()
    for key in path:
        node = node[key]
    out: dict[int, set[tuple[str, ...]]] = {}
    for phrase in node:
        words = tuple(str(phrase).lower().split())
        out.setdefault(len(words), set()).add(words)
    return {n: frozenset(v) for n, v in out.items()}


@cache
def _openers(*path: str) -> frozenset[str]:
    """Return the words that the phrases of a list begin with: most words of a narration begin none."""
    return frozenset(phrase[0] for phrases in _phrases(*path).values() for phrase in phrases)


@cache
def _flat(*path: str) -> frozenset[str]:
    node: Any = _data()
    for key in path:
        node = node[key]
    return frozenset(node)


def _a_year(words: tuple[str, ...]) -> bool:
    """Tell whether the words begin a year ("twenty nineteen", "two thousand", "2019")."""
    if not words:
        return False
    if len(words[0]) == 4 and words[0].isdigit() and words[0][:2] in ("19", "20"):
        return True
    teens = word_set("teens")
    if (
        words[0] == "nineteen"
        and len(words) > 1
        and words[1] in ("fifty", "sixty", "seventy", "eighty", "ninety")
    ):
        return True
    return words == ("two", "thousand") or (
        words[0] in ("twenty", "nineteen") and len(words) > 1 and words[1] in teens
    )


_BEFORE_PERSONS = frozenset(
    [
        "the",
        "a",
        "my",
        "their",
        "duty",
        "store",
        "shift",
        "night",
        "day",
        "kitchen",
        "general",
        "assistant",
        "bar",
        "head",
    ]
)


ENDING_LOST = "heard without its ending: was it done, or is it to be done?"
_PASTS_OF_A_REPORT = 2
_OBJECTS = frozenset(
    ("the", "it", "a", "an", "all", "old", "new", "in", "out", "both", "every", "my", "check", "checked")
)
"""A narration with so many past forms reports; it is no list of instructions."""


_MEASURES = frozenset(
    (
        "pounds",
        "pound",
        "ounces",
        "ounce",
        "grams",
        "kilos",
        "kilo",
        "kg",
        "lb",
        "oz",
        "psi",
        "bar",
        "amps",
        "volts",
        "degrees",
    )
)
"""What closes the figure of a plate: a verb of work behind it is the speaker's."""


class Scopes:
    """The cues of a narration, and what they make of its verbs and nouns."""

    def __init__(self, words: Words) -> None:
        self.w = words
        self.words = words.words
        self.forms = forms_of_word()
        self._memo: dict[int, Status | None] = {}
        self._frames: dict[int, int | None] = {}

    # -- helpers ------------------------------------------------------------------------------------

    def sentence(self, i: int) -> tuple[int, int]:
        """Return the sentence of word i."""
        return self.w.sentences[self.w.sentence_of[i]]

    def ends_with(self, i: int, *path: str, start: int = 0) -> int:
        """Return how many words of the longest phrase of a list end at word i (inclusive), or 0."""
        best = 0
        for n, phrases in _phrases(*path).items():
            if i - n + 1 >= start and self.words[i - n + 1 : i + 1] in phrases:
                best = max(best, n)
        return best

    def begins_with(self, i: int, *path: str, end: int | None = None) -> int:
        """Return how many words of the longest phrase of a list begin at word i, or 0."""
        best = 0
        if self.words[i : i + 1] and self.words[i] not in _openers(*path):
            return 0
        for n, phrases in _phrases(*path).items():
            if (end is None or i + n <= end) and self.words[i : i + n] in phrases:
                best = max(best, n)
        return best

    def has(self, start: int, end: int, *path: str) -> int | None:
        """Return the first word in [start, end) at which a phrase of the list begins and fits, or None."""
        openers = _openers(*path)
        for i in range(start, min(end, len(self.words))):
            if self.words[i] in openers and self.begins_with(i, *path, end=end):
                return i
        return None

    def skip_back(self, i: int, start: int) -> int:
        """Return the nearest word at or before i that is no adverb; start - 1 when there is none."""
        while i >= start and self.words[i] in _flat("adverbs") and self.words[i] != "never":
            i -= 1
        return i

    def before(self, i: int, start: int) -> int:
        """Return the word that governs the verb at i.

        Adverbs and the first half of "pressure tested" passed over.
        """
        g = self.skip_back(i - 1, start)
        if g == i - 1 and g >= start and self.words[g] in _COMPOUND:
            g = self.skip_back(g - 1, start)
        return g

    def kind(self, i: int) -> str | None:
        """Return the form that word i is of a verb, or None."""
        form = self.forms.get(self.words[i])
        return form.kind if form else None

    def clause_start(self, i: int) -> int:
        """Return where the clause of word i begins: after the last strong break before it."""
        start, _ = self.sentence(i)
        for j in range(i - 1, start - 1, -1):
            word = self.words[j]
            if word in (";", ":", "but", "because", "cause", "though", "although", "however") or (
                word == "so" and self.words[j + 1] not in ("that", "far", "much")
            ):
                return j + 1
            if word in _OURS_WORDS and j > start:
                before = self.words[j - 1]
                if before in (",", "and", "then"):
                    return j
                if before in _flat("lists", "whenever") or before in _flat("lists", "condition"):
                    return j - 1
                if before not in ("that", "what", "where", "which", "how", "than", "as", "so", "all"):
                    return j
        return start

    def clause_end(self, i: int) -> int:
        """Return where the clause of word i ends: before the next strong break after it."""
        _, end = self.sentence(i)
        for j in range(i + 1, end):
            word = self.words[j]
            if word in (";", "but", "because", "though", "although", "however") or (
                word == "so" and j + 1 < end and self.words[j + 1] not in ("that", "far", "much")
            ):
                return j
            if word in _OURS_WORDS and self.words[j - 1] in (",", "and", "then"):
                return j - 1
        return end

    # -- who, when, under which condition -------------------------------------------------------------

    def ours(self, i: int, *, telling: bool = False) -> bool:
        """Tell whether the work at word i is this technician's, on this job.

        With `telling` only the words before count: what follows is what somebody was told.
        """
        start, end = self.sentence(i)
        if self.words[end - 1] == "?":
            return False
        if self.framed(i):
            start = self._frame(self.w.sentence_of[i]) or start  # who gives leave does not do the work
        if self._reported(start, i):
            return False
        subject = self._subject(start, i)
        if subject == "other" or self._by_others(i, end):
            return False
        first, last = self.clause_start(i), i + 1 if telling else self.clause_end(i)
        if self.has(first, last, "lists", "this_job") is not None:
            return True
        old = self.has(first, last, "lists", "long_ago")
        if old is None:
            old = next(
                (
                    k
                    for k in range(first, last - 1)
                    if self.words[k] in ("in", "since") and _a_year(self.words[k + 1 : k + 3])
                ),
                None,
            )
        return not (old is not None and not self._since(old, first))

    def _since(self, old: int, first: int) -> bool:
        """Tell whether a time of long ago is only a comparison ("same as last time", "since last year")."""
        before = self.words[max(first, old - 2) : old]
        return any(
            w
            in (
                "since",
                "than",
                "as",
                "from",
                "like",
                "unlike",
                "due",
                "again",
                "until",
                "till",
                "by",
                "next",
            )
            for w in before
        )

    def _reported(self, start: int, i: int) -> bool:
        """Tell whether somebody else's account runs up to word i, or stands behind it."""
        for j in range(start, i):
            n = self.begins_with(j, "lists", "reported", end=i + 1) or self._account(j, start, i)
            if n and not self._account_ends(j + n, i):
                return True
        return self._told_behind(i)

    def _account(self, j: int, start: int, i: int) -> int:
        """Return 1 where the verb at word j opens an account ("the boss thinks ...")."""
        if self.words[j] not in _flat("lists", "account_verbs"):
            return 0
        for k in range(j - 1, max(start, j - 7) - 1, -1):
            word = self.words[k]
            if word in (",", ";", "and", "but") or word in _OURS_WORDS:
                return 0
            if word in _flat("lists", "sources"):
                return 1
            if k >= j - 2 and self._others_end(k, start) and self.words[j - 1] not in _BE:
                return 0 if word in ("you", "who") or j + 1 >= i else 1
        return 0

    def _account_ends(self, first: int, i: int) -> bool:
        """Tell whether the speaker takes the word again between an account's first word and word i."""
        told = False
        for k in range(first, i):
            word = self.words[k]
            if word in (";", "but") or (word in ("so", ",", "and") and self.words[k + 1] in _OURS_WORDS):
                return True
            if word in _OURS_WORDS and k - first >= 2:
                return True  # "plate says two pounds I unplugged it first": told without a pause
            if word == "," and not told:
                # "tag says four pounds, charged four": a verb without a subject is the speaker's.
                after = self.skip_back_over(k + 1, i)
                if self.kind(after) == "past" and self.words[after] not in _BE:
                    return True
            told = told or (self.kind(k) == "past" and word not in _BE and word != "had")
        # "plate says two pounds recovered one pound fifteen": told without a pause
        return any(
            self.words[k - 1] in _MEASURES and self.kind(k) == "past" and self.words[k] not in _BE
            for k in range(first + 1, i + 1)
        )

    def skip_back_over(self, k: int, last: int) -> int:
        """Return the first word at or behind k that is no adverb and no "and" or "then", at most `last`."""
        while k < last and (self.words[k] in _flat("adverbs") or self.words[k] in ("and", "then")):
            k += 1
        return k

    def _told_behind(self, i: int) -> bool:
        """Tell whether the account's source closes the sentence ("it ran fine, the manager says")."""
        _, end = self.sentence(i)
        last = end - 1 if self.words[end - 1] in _SENTENCE_END else end
        for k in range(i + 1, last):
            word = self.words[k]
            if word in (";", "but", "so"):
                return False
            if word in ("according", "per", "says", "said") and k + 2 < end:
                tail = self.words[k + 1 : min(last, k + 5)]
                if word in ("according", "per") and any(
                    w in _flat("lists", "sources")
                    and w not in ("plate", "manual", "nameplate", "label", "sheet")
                    for w in tail
                ):
                    return True
                if word in ("says", "said") and self.words[k - 1] in (",", "or", "so"):
                    return k + 4 >= last
            if word in _flat("lists", "account_verbs") and k >= last - 2:
                if k == last - 2 and self.words[k + 1] not in ("me", "us", "so"):
                    continue
                j = k - 1
                n = self._others_end(j, i)
                while n and j - n >= i and self.words[j - n] in ("the", "their", "his", "a", "my"):
                    n += 1
                if n and j - n >= i and self.words[j - n] in (",", "so", "or"):
                    return True
        return False

    def _others_end(self, j: int, start: int) -> int:
        """Return how many words that name somebody else end at word j, or 0."""
        n = self.ends_with(j, "lists", "others", start=start)
        if n:
            return n
        if j > start and self.words[j] in _flat("lists", "person_nouns"):
            if self.words[j - 1] in _flat("lists", "other_marks"):
                return 2
            if j - 1 > start and self.words[j - 2] in _flat("lists", "other_marks"):
                return 3
        return 0

    def _subject(self, start: int, i: int) -> Literal["ours", "other"] | None:
        """Return whose doing the verb at i is, by the nearest subject before it in the sentence."""
        j = i - 1
        while j >= start:
            n = self.ends_with(j, "lists", "ours", start=start)
            if n > 1 and self.words[j + 1] == "from":
                return "other"  # "the apprentice from the other firm"
            if n and not (self.words[j] == "me" and n == 1):
                return "ours"
            n = self._others_end(j, start)
            if n and self.words[j] in ("she", "he") and self._machine_does(i):
                n = 0  # "she's running like a champ": a machine
            if (
                n
                and self._is_told(j - n + 1, start)
                and (
                    i - j == 1
                    or self.words[j + 1] in ("left", "finished", "started", "done", "out", "off", "wrapped")
                )
            ):
                n = 0  # "told the duty manager left at half two": who left is not said, and is the speaker
            first = j - n + 1
            aside = (
                n == 1
                and first > start
                and self.words[first - 1] not in word_set("subject_openers")
                and "," in self.words[j:i]
            )
            if n and aside:
                n = 0  # "the line they put in, brazed two joints": a clause inside the thought
            if n and self._acts(j + 1, i, self.words[j]):
                if self.words[j] in ("guy", "tech", "he", "she", "they", "technician") and self._crew(
                    start, j
                ):
                    return "ours"
                # "you" as in "you know", and objects of ours ("told the customer") do not act.
                return "other"
            j -= 1
        return None

    def _is_told(self, i: int, start: int) -> bool:
        """Tell whether the person named at word i is the object of "told", "showed", "informed" ..."""
        j = i - 1
        while j >= start and i - j <= 3 and self.words[j] in _BEFORE_PERSONS:
            j -= 1
        form = self.forms.get(self.words[j]) if j >= start else None
        return form is not None and form.kind == "past" and form.verb in _TELLING

    def _by_others(self, i: int, end: int) -> bool:
        """Tell whether "by the last guy" stands behind the verb."""
        for k in range(i + 1, min(end, i + 6)):
            if self.words[k] in (",", "and", "but", ";"):
                return False
            if self.words[k] == "by":
                j = k + 1
                while j < end and self.words[j] in ("the", "a", "an", "some", "their", "his"):
                    j += 1
                return bool(self.begins_with(j, "lists", "others", end=end)) and self.words[j] != "you"
        return False

    def _machine_does(self, i: int) -> bool:
        """Tell whether the verb at word i is what a machine does."""
        form = self.forms.get(self.words[i])
        if form is not None and form.kind == "base" and self.words[i - 1] in ("to", "will", "'ll"):
            return False
        return form is not None and form.verb in word_set("machine_verbs")

    def _crew(self, start: int, j: int) -> bool:
        """Tell whether "he" is one of us on an earlier day of this job ("we were here last week.

        He recovered it").
        """
        before = self.words[start:j]
        return (
            any(w in ("we", "we've", "us") for w in before)
            and self.has(start, j, "lists", "this_job") is not None
        )

    def _acts(self, k: int, i: int, noun: str) -> bool:
        """Tell whether the noun before word k is the subject of a verb that stands at k or soon after."""
        if noun in ("you",) and self.words[k] in ("know", "see", "can"):
            return False
        while k < i and (
            self.words[k] in _flat("adverbs")
            or self.words[k] in _COMPOUND
            or self.words[k] in word_set("after_actor")
        ):
            if self.words[k] in ("'s", "'d", "who"):
                return True
            k += 1
        if k >= i:
            return k == i
        if self.kind(k) in ("past", "third") or self.words[k] in word_set("acting"):  # fmt: skip
            return True
        return self.kind(k) == "base" and noun in word_set("plain_actors")

    def conditional(self, i: int) -> bool:
        """Tell whether the clause of word i is a condition, or comes only when something happens."""
        start, _ = self.sentence(i)
        if self.framed(i):
            start = self._frame(self.w.sentence_of[i]) or start
        for j in range(i - 1, start - 1, -1):
            word = self.words[j]
            if self.begins_with(j, "lists", "condition", end=i):
                # The main clause after an if-clause is no condition: its own verb decides.
                opens = ("if", "unless", "in", "as", "provided", "even")
                return not ("," in self.words[j:i] and self.words[j] in opens)
            if word in (";", "but"):
                return False
        return False

    def after_condition(self, i: int) -> bool:
        """Tell whether an if-clause stands before word i in its sentence."""
        start, end = self.sentence(i)
        return any(self.words[j] in ("if", "unless", "otherwise") for j in [*range(start, i), *range(i, end)])

    def whenever(self, i: int) -> int | None:
        """Return the place of a "once", "when", "before" ... that governs the verb at i, if one does."""
        start, _ = self.sentence(i)
        for j in range(i - 1, max(start, i - 9) - 1, -1):
            word = self.words[j]
            if word in (",", ";", "but", "and", "so", "then") or (
                self.kind(j) == "past" and word not in _BE and word != "had"
            ):
                return None
            n = self.begins_with(j, "lists", "whenever", end=i)
            if n:
                return j
        return None

    def advised(self, i: int) -> bool:
        """Tell whether the words before word i give somebody advice."""
        start, _ = self.sentence(i)
        place = self.has(start, i, "lists", "advice")
        if place is None:
            place = self._told_to(start, i)
        if place is None:
            return False
        return not any(
            w in _OURS_WORDS and self.words[k - 1] in ("and", ",", "so", "but")
            for k, w in enumerate(self.words[place + 1 : i], start=place + 1)
        )

    def _told_to(self, start: int, i: int) -> int | None:
        """Return the place of "told the landlord to ..." before word i, if it stands there."""
        for j in range(start, i):
            form = self.forms.get(self.words[j])
            if form is None or form.verb not in (
                "tell",
                "advise",
                "ask",
                "remind",
                "show",
                "warn",
                "instruct",
            ):
                continue
            tail = self.words[j + 1 : min(i, j + 7)]
            if "to" in tail and not any(w in _OURS_WORDS for w in tail):
                return j
        return None

    # -- plans that a sentence opens with -------------------------------------------------------------------

    def framed(self, i: int) -> bool:
        """Tell whether word i stands in a plan that its sentence opens with ("Tomorrow: braze, charge")."""
        head = self._frame(self.w.sentence_of[i])
        if head is None or i < head:
            return False
        clause = self.clause_start(i)
        if clause > head and not all(w in _CLOSERS for w in self.words[head:clause]):
            return False
        return not any(
            self.words[k] in _OURS_WORDS and self.kind(k + 1) == "past" and self.words[k + 1] not in AMBIGUOUS
            for k in range(head, i)
        )

    def _frame(self, number: int) -> int | None:
        """Return the word behind the plan that a sentence opens with.

        A plan that stands alone opens the next sentence.
        """
        if number not in self._frames:
            self._frames[number] = None
            self._frames[number] = self._find_frame(number)
        return self._frames[number]

    def _find_frame(self, number: int) -> int | None:
        start, end = self.w.sentences[number]
        k = start
        while k < end and self.words[k] in word_set("plan_openers"):
            k += 1
        n = self.begins_with(k, "lists", "plan_heads", end=end)
        if n:
            return k + n
        n = self.begins_with(k, "lists", "plan_days", end=end)
        if n:
            j = k + n
            while j < end and self.words[j] in (",", ":", "-", "then"):
                j += 1
            form = self.forms.get(self.words[j]) if j < end else None
            if form is not None and form.kind == "base" and self.words[j] not in AMBIGUOUS:
                return k + n
        leave = self._leave_given(k, end)
        if leave is not None:
            return leave
        if number:
            before, stop = self.w.sentences[number - 1]
            head = self._frame(number - 1)
            if head is not None and before <= head and all(w in _CLOSERS for w in self.words[head:stop]):
                return start
        return None

    def _leave_given(self, k: int, end: int) -> int | None:
        """Return the word behind "when he says go it's", "once they agree, it's", if that stands at k."""
        n = 2 if self.words[k : k + 2] == ("soon", "as") else 1
        n = 3 if self.words[k : k + 3] == ("as", "soon", "as") else n
        if k + n >= end or (n == 1 and self.words[k] not in ("when", "once")):
            return None
        for j in range(k + n + 1, min(end - 2, k + 14)):
            if self.words[j - 1] == "then" or self.words[j - 1 : j + 1] in ((",", "it"), (",", "that")):
                pass
            elif self.kind(j - 1) == "past" and self.words[j - 1] not in ("approved", "signed", "okayed"):
                return None
            if self.words[j] not in ("it", "that") or j == k + n:
                continue
            for tail in (("'s",), ("'ll", "be"), ("will", "be"), ("is",)):
                if self.words[j + 1 : j + 1 + len(tail)] == tail:
                    return j + 1 + len(tail)
        return None

    def _told_live(self, i: int) -> bool:
        """Tell whether a plain form that opens its sentence is told while it is done ("Pull the cord.").

        Its object follows, and behind it comes what was found; nothing before it gives an order, and nobody
        is spoken to.
        """
        number = self.w.sentence_of[i]
        _start, end = self.sentence(i)
        if self.words[i] in AMBIGUOUS or not self.w.opens(i) or i + 1 >= end:
            return False
        if self.words[i + 1] not in word_set("live_objects") or self.words[end - 1] == "?":
            return False
        first = self.w.sentences[max(0, number - 2)][0]
        if any(w in word_set("orders") for w in self.words[first:end]):
            return False
        last = self.w.sentences[min(len(self.w.sentences) - 1, number + 1)][1]
        behind = self.words[i + 2 : last]
        if any(w in word_set("orders") for w in behind):
            return False
        return any(
            w in NUMBER_WORDS or w[:1].isdigit() or w in word_set("live_results") for w in behind
        ) and not any(self.words[k] in ("will", "won't", "'ll", "i'll") for k in range(i, last))

    def _later(self, i: int) -> bool:
        """Tell whether the words behind a plain form at word i put it off ("braze it tomorrow")."""
        end = self.clause_end(i)
        for j in range(i + 1, end):
            if self.kind(j) == "past" and self.words[j] not in AMBIGUOUS:
                return False
            if self.begins_with(j, "lists", "plan_tails", end=end):
                return True
        return False

    # -- the verb ---------------------------------------------------------------------------------------

    def verb(self, i: int) -> Status | None:
        """Return what became of the work that the verb at word i names."""
        if i in self._memo:
            return self._memo[i]
        self._memo[i] = None  # a chain that comes back to itself ends here
        if i and self.words[i - 1] in ("almost", "nearly"):
            return None
        status = self._verb(i)
        form = self.forms.get(self.words[i])
        if status is not None and not self.ours(i, telling=form is not None and form.verb in _TELLING):
            status = None
        telling = form is not None and form.verb in _TELLING
        if telling and status is None and (self._customer_told(i) or self._told_by_the_way(i)):
            status = "done"
        if status in ("done", "planned") and not telling and (self.conditional(i) or self.advised(i)):
            status = None
        if status == "planned" and self.after_condition(i):
            status = None
        if status == "done" and (self._taken_back(i) or self._of_nothing(i)):
            status = "not_done"
        if status == "not_done" and self._neglected(i):
            status = None
        if status is not None and self._of_mine(i):
            status = None
        self._memo[i] = status
        return status

    def bare(self, i: int) -> bool:
        """Tell whether the verb at word i is a plain form that nothing governs: it may be a noun as well."""
        if self.kind(i) == "third":
            return True
        if self.kind(i) != "base" or self.words[i] in AMBIGUOUS:
            return False
        start, _ = self.sentence(i)
        g = self.skip_back(i - 1, start)
        if g < start or self._noun_like(i, start):
            return True
        word = self.words[g]
        governed = word in ("to", "i", "we", "you", "they", "he", "she") or any(
            word in _flat("modal", name) for name in ("planned", "negative", "maybe", "emphatic")
        )
        return not governed

    def _customer_told(self, i: int) -> bool:
        """Tell whether somebody else was told ("customer was told to keep the doors shut")."""
        start, _ = self.sentence(i)
        g = self.skip_back(i - 1, start)
        form = self.forms.get(self.words[i])
        if (
            g >= start
            and form is not None
            and form.verb in ("inform", "advise", "notify", "brief", "update", "tell")
            and form.kind == "past"
        ):
            # "Customer notified."
            after = self.words[i + 1] if i + 1 < len(self.words) else "."
            if self.begins_with(g, "lists", "others") and after in (
                (".", ",") if form.verb == "tell" else (".", ",", "of", "about", "to", "and", "that")
            ):
                return True
        if g <= start or self.words[g] not in ("was", "were", "been", "is", "are", "'s"):
            return False  # "was told to ...": the speaker was
        before = self.words[start:g]
        return not any(w in ("i", "i've", "we", "we've", "i'm", "not", "to", "be") for w in before[-3:])

    def _told_by_the_way(self, i: int) -> bool:
        """Tell whether a bare "told" closes a sentence about something else ("..., told the kid")."""
        start, _ = self.sentence(i)
        return i > start and self.words[i - 1] == "," and self.kind(i) == "past"

    def _neglected(self, i: int) -> bool:
        """Tell whether what was not done was not done before this visit ("hasn't been cleaned in years")."""
        start, _ = self.sentence(i)
        if any(w in _OURS_WORDS for w in self.words[max(start, i - 4) : i]):
            return False
        after = self.words[i + 1 : self.clause_end(i)][:8]
        return (
            any(
                w in ("since", "ever", "properly", "right")
                or (w in ("years", "ages", "months", "weeks", "decade", "forever", "while", "year", "season"))
                for w in after
            )
            or "ever" in self.words[max(start, i - 3) : i]
        )

    def _of_mine(self, i: int) -> bool:
        """Tell whether the object is the speaker's own belongings ("tightened my belt")."""
        for k in range(i + 1, min(len(self.words) - 1, i + 4)):
            if self.words[k] in ("my", "his", "our", "their"):
                return self.words[k + 1] in _flat("lists", "belongings")
            if self.words[k] not in ("up", "off", "out", "down", "in", "on", "of", "away", "all"):
                return False
        return False

    def _of_nothing(self, i: int) -> bool:
        """Tell whether the work at word i was done to nothing ("recovered nothing, it was flat")."""
        form = self.forms.get(self.words[i])
        return (
            form is not None
            and form.verb in ("recover", "reclaim", "charge", "add", "braze", "replace", "clean", "adjust")
            and self.words[i + 1 : i + 2] in (("nothing",), ("none",))
        )

    def _taken_back(self, i: int) -> bool:
        """Tell whether the speaker corrects himself right behind the verb ("cap brazed, no.

        I used a flare").
        """
        _, end = self.sentence(i)
        after = self.words[i + 1 : min(end, i + 5)]
        for k, word in enumerate(after):
            if word == "no" and k and after[k - 1] == ",":
                rest = after[k + 1 : k + 3]
                return bool(rest) and (
                    rest[0] in ("i", "we", "it", "that")
                    or rest[:2] in ((",", "i"), (",", "we"))
                    or rest[-1] == self.words[i - 1]  # "cap brazed, no, cap screwed on"
                )
            if word not in (",", "it", "that", "in", "the", "one"):
                return False
        return False

    def _verb(self, i: int) -> Status | None:
        kind = self.kind(i)
        if kind == "third":
            return None
        if kind == "ing":
            return self._ing(i)
        start, _ = self.sentence(i)
        g = self.before(i, start)
        if self.words[i] in AMBIGUOUS:
            kind = "base" if self._base_context(g, start) else "past"
        return self._base(i, g, start) if kind == "base" else self._past(i, g, start)

    def _base_context(self, g: int, start: int) -> bool:
        """Tell whether a form that is both base and past ("put", "cut") is a base here."""
        if g < start:
            return False
        word = self.words[g]
        if (
            word in ("to", "let", "lets")
            or word in _flat("modal", "planned")
            or word in _flat("modal", "maybe")
        ):
            return word != "i'd" and word != "we'd"
        if word in _flat("modal", "negative") or word in _flat("modal", "emphatic"):
            return True
        if self.ends_with(g, "modal", "planned", start=start):
            return True
        if word in ("and", "or", ",", "then", "&"):
            previous = self._previous_verb(g, start)
            if previous is None:
                return False
            if self.kind(previous) == "base" and self.words[previous] not in AMBIGUOUS:
                return self.verb(previous) != "done" or "to" in self.words[start:previous]
            if self.words[previous] in AMBIGUOUS:
                before = self.skip_back(previous - 1, start)
                return self._base_context(before, start)
        return False

    def _previous_verb(self, g: int, start: int) -> int | None:
        """Return the last verb of the work before word g in the sentence, helping verbs left out."""
        for j in range(g - 1, max(start, g - 14) - 1, -1):
            word = self.words[j]
            if word in (";", "but"):
                return None
            kind = self.kind(j)
            if kind is None or word in _BE or word in word_set("helping_verbs"):
                continue
            if kind in ("ing", "third"):
                continue
            if (
                kind == "past"
                and j > start
                and self.words[j - 1] in ("the", "a", "an", "that", "this", "any", "its")
            ):
                continue  # an adjective: "the burnt contact"
            if kind == "base" and (self._noun_like(j, start) or not self._governed(j, start)):
                continue
            return j
        return None

    def _governed(self, j: int, start: int) -> bool:
        """Tell whether something before a plain form makes it a verb ("to braze", "I pull", "and weigh")."""
        if j == start or self.words[j] in AMBIGUOUS:
            return True
        g = self.skip_back(j - 1, start)
        word = self.words[g] if g >= start else ""
        return word in word_set("governs_plain") or any(
            word in _flat("modal", name) for name in ("planned", "negative", "maybe", "emphatic")
        )

    def _noun_like(self, j: int, start: int) -> bool:
        """Tell whether a base form is a noun where it stands ("the charge", "a leak check")."""
        if j <= start:
            return False
        before = self.words[j - 1]
        return (
            before in word_set("before_noun")
            or before.replace(".", "").isdigit()
            or before in NUMBER_WORDS
        )  # fmt: skip

    def _base(self, i: int, g: int, start: int) -> Status | None:
        words = self.words
        if g < start:
            if self.framed(i) or self._later(i):
                return "planned"
            if self.ending_lost(i, start) or self._told_live(i):
                return "done"
            return None  # an imperative: an instruction or a note to self, not a report
        word = words[g]
        if self.kind(i + 1) == "third" if i + 1 < len(words) else False:
            return None  # a noun: "..., meter shows zero"
        if self.framed(i) and (word in _LIST_WORDS or self._frame(self.w.sentence_of[i]) == g + 1):
            return "planned"
        if word == "to":
            return self._infinitive(i, g, start)
        if word in ("not",) and g - 1 >= start and words[self.skip_back(g - 1, start)] == "to":
            return "not_done"
        if word == "than" and g > start and words[g - 1] == "rather":
            return "not_done"
        if word in _flat("modal", "negative"):
            who = words[self.skip_back(g - 1, start)] if g > start else ""
            if word == "never" and who in ("i'd", "we'd", "would"):
                return None  # "I'd never swap that board": what one would do
            if not who and word in ("don't", "never", "not"):
                return None  # "don't braze it with the charge in": advice
            return (
                None
                if who in ("you", "they", "it", "he", "she") and word in ("don't", "can't", "won't")
                else "not_done"
            )
        if self.ends_with(g, "modal", "planned", start=start):
            return "planned"
        if word == "only" or (word in ("could", "would") and "only" in words[g:i]):
            return "done"
        if word in _flat("modal", "maybe"):
            if word == "could" and words[max(start, g - 2) : g] in (("before", "i"), ("before", "we")):
                return "not_done"  # "had to go before I could braze it"
            return None
        if word in _flat("modal", "emphatic"):
            return "done" if word == "did" else None
        if word in ("was", "is", "'s") and "did" in words[start:g]:
            return "done"  # "all I did was change the belt"
        if word == "was" and "do" in words[start:g] and any(w in ("needed", "had") for w in words[start:g]):
            return "done"  # "all I had to do was clear the drain"
        if self._dated(i, start):
            return "planned"
        n = self.ends_with(g, "lists", "ours", start=start)
        if n > 1 and g - n >= start and words[g - n] == "had":
            return "done"  # "had my helper pull the vacuum"
        if word in ("i", "we"):
            before = self.whenever(i)
            if before is not None or self._that_clause(g, start):
                return None
            return "done"
        if word in ("and", "or", ",", "then", "nor", "&"):
            previous = self._previous_verb(g, start)
            if previous is None:
                if self._told_live(i):
                    return "done"
                return "planned" if self._later(i) else None
            return self.verb(previous)
        if word in _flat("lists", "needs"):
            return "planned"
        if word in ("help", "helped", "let", "make"):
            return None
        return None

    def ending_lost(self, i: int, start: int | None = None) -> bool:
        """Tell whether a base form that opens a sentence is a past whose ending was not heard.

        A recogniser drops "-ed" ("Charge two pounds" for "Charged two pounds"). In heard speech that tells of
        work done otherwise, such a form is taken as done, and what rests on it carries a reason to look.
        """
        begin = self.sentence(i)[0] if start is None else start
        form = self.forms.get(self.words[i])
        if form is None or form.kind != "base" or i != begin or i + 1 >= len(self.words):
            return False
        follows = self.words[i + 1]
        # "Charge: two pounds", "Charge on the plate" are nouns; an object follows a doing.
        if not (follows in _OBJECTS or follows in NUMBER_WORDS or follows[:1].isdigit()):
            return False
        return self._tells_in_the_past

    @cached_property
    def _tells_in_the_past(self) -> bool:
        heard = any(t.probability is not None for t in self.w.narration.tokens)
        return heard and sum(self.kind(k) == "past" for k in range(len(self.words))) >= _PASTS_OF_A_REPORT

    def _dated(self, i: int, start: int) -> bool:
        """Tell whether the words before a plain form put it off ("Thursday I come back, braze it")."""
        if any(
            self.kind(k) == "past" and self.words[k] not in AMBIGUOUS and self.words[k] != "come"
            for k in range(start, i)
        ):
            return False
        told = self.words[start:i]
        if not any(w in ("i", "we", "i'll", "we'll") for w in told):
            return False
        if any(self.begins_with(k, "lists", "plan_tails", end=i) for k in range(start, i)):
            return True
        return any(w in ("come", "comes", "coming", "back", "return") for w in told) and any(
            self.begins_with(k, "lists", "plan_days", end=i) for k in range(start, i)
        )

    def _that_clause(self, g: int, start: int) -> bool:
        return self.advised(g) or (g > start and self.words[g - 1] in ("that", "should"))

    def _infinitive(self, i: int, g: int, start: int) -> Status | None:
        """Judge "... to braze" by what stands before "to"."""
        h = self.skip_back(g - 1, start)
        if h < start:
            return None
        # Longest match first, so that "didn't need to" wins over "need to".
        best: tuple[int, Status] | None = None
        for status in ("not_done", "done", "planned"):
            for end in {h, g - 1}:
                n = self.ends_with(end, "to", status, start=start)
                if n and (best is None or n > best[0]):
                    best = (n, status)
        if best is not None:
            status_found = best[1]
            first = h - best[0] + 1
            before = self.skip_back(first - 1, start)
            if (
                status_found == "planned"
                and before >= start
                and self.words[before] in ("was", "were")
                and self.words[h] != "able"
            ):
                return None  # "I was going to": it came otherwise
            if (
                status_found == "done"
                and self.words[h] == "able"
                and before >= start
                and self.words[before] == "be"
            ):
                return "planned" if self._later(i) else None  # "should be able to braze it tomorrow"
            if (
                status_found == "done"
                and self.words[h] == "got"
                and "still" in self.words[max(start, h - 3) : h]
            ):
                return "planned"
            if status_found == "planned":
                if before >= start and self.words[before] in word_set("denies"):
                    return "not_done"
                if before >= start and self.words[before] in word_set("not_sure_subjects"):
                    return None
                if self.words[h] == "got":
                    return (
                        "done"
                        if before >= start and self.words[before] in ("i", "we", "finally")
                        else "planned"
                    )
                if self.words[h] == "set" or self.words[h] == "like":
                    return None
            if self.words[h] in ("started", "began") and "but" in self.words[i : self.sentence(i)[1]]:
                return None  # "I started to recover but the machine quit"
            return status_found
        # "used nitrogen to purge", "took the pump and ran it to ..." : the means were used, so it was done.
        for j in range(g - 1, max(start, g - 7) - 1, -1):
            if self.words[j] == "used":
                return self.verb(j) if self.verb(j) != "planned" else "planned"
            if self.words[j] == "using":
                return "done"
            if self.kind(j) in ("past", "base") and not self._noun_like(j, start):
                break
        # "coming back Thursday to braze it": a plan with a time between.
        clause = self.clause_start(i)
        if self.has(clause, g, "lists", "planned") is not None and not self._past_between(clause, g):
            return "planned"
        for j in range(g - 1, max(start, g - 9) - 1, -1):
            if self.words[j] in word_set("coming_back") and not self._past_between(clause, g, but=j):
                return "planned"
        return None

    def _past_between(self, start: int, end: int, but: int | None = None) -> bool:
        """Tell whether a finite past form stands in [start, end)."""
        return any(
            self.kind(j) == "past"
            and j != but
            and self.words[j] not in ("scheduled", "left", "quoted", "ordered", "set", "put")
            for j in range(start, end)
        )

    def _past(self, i: int, g: int, start: int) -> Status | None:
        words = self.words
        if self._of_itself(i) or self._matter(i):
            return None
        if g < start:
            return self._open_past(i, start)
        word = words[g]
        if self._machine_did(i, g, start) or self._describes(i, start) or self._found_so(i, start):
            return None
        if word in ("not", "never") or word in _flat("lists", "negation"):
            return "not_done"
        if word == "be":
            return self._to_be(i, g, start)
        if word in ("been", "being") or word in _BE:
            return self._passive(i, g, start)
        if word in ("have", "has", "had", "'ve", "having"):
            return self._perfect(i, g, start)
        if word in ("i'd", "we'd") and self.words[i] in AMBIGUOUS:
            # "before that I'd put the coil on" against "I'd put a new one in"
            told = self.words[start:g]
            return "done" if any(w in word_set("time_signs") for w in told) else None
        if word in ("and", "or", "nor", ",", "then", "&"):
            previous = self._previous_verb(g, start)
            if previous is not None and word in ("or", "nor"):
                return self.verb(previous)
            chained = previous is not None and self.verb(previous) is None and self.kind(previous) == "past"
            if chained and previous is not None and not self.ours(previous):
                return None  # somebody else's chain goes on until a subject of ours comes
            follows = words[i + 1] if i + 1 < len(words) else "."
            takes = word == "," and follows in ("the", "it", "them", "a", "my")
            if (
                previous is not None
                and word in ("and", ",")
                and not takes
                and self._passive_before(previous, start)
            ):
                passive = self.verb(previous)
                if passive in ("planned", "not_done"):
                    return passive
        if word in ("or",):
            return None
        if word in _flat("lists", "needs") and word not in ("get", "have"):
            return "planned"  # "needs replaced"
        return self._open_past(i, start)

    def _of_itself(self, i: int) -> bool:
        """Tell whether the thing did it by itself ("the valve adjusted itself", "closed on its own")."""
        _, end = self.sentence(i)
        for k in range(i + 1, min(end, i + 5)):
            if self.words[k] in ("itself", "themselves", "herself"):
                return True
            if self.words[k - 1 : k + 2] in (
                ("on", "its", "own"),
                ("on", "their", "own"),
                ("on", "her", "own"),
            ):
                return True
            if self.words[k] in (",", "and", "but", ";"):
                return False
        return False

    def _machine_did(self, i: int, g: int, start: int) -> bool:
        """Tell whether the subject of an active past form is the machine ("it shut off", "water filled it").

        Who works says "I" or leaves himself out; "it" and "which" before an active form are never he.
        """
        form = self.forms.get(self.words[i])
        if form is None or form.kind != "past" or form.verb in _flat("lists", "machine_acts"):
            return False
        word = self.words[g]
        if word in ("it", "she", "which", "itself"):
            return g == start or self.words[g - 1] in _flat("lists", "before_subject")
        follows = self.words[i + 1] if i + 1 < len(self.words) else "."
        takes = follows in _OBJECTS and follows not in ("in", "out", "check", "checked")
        if word in ("and", "then") and (
            not takes
            or form.verb in ("kill", "trip", "cut", "knock", "drop", "shut", "clear", "melt", "empty")
        ):
            previous = self._previous_verb(g, start)
            if previous is None or "," in self.words[previous:g] or self.kind(previous) != "past":
                return False
            before = self.skip_back(previous - 1, start)
            if before >= start and takes and self.words[before] in _flat("lists", "machine_agents"):
                return True
            if takes or before < start or self.words[before] not in ("it", "she", "which"):
                return False
            return before == start or self.words[before - 1] in _flat("lists", "before_subject")
        if (
            takes
            and follows not in ("all", "both", "old", "new")
            and word in _flat("lists", "machine_agents")
        ):
            k = g - 1
            while k >= start and self.words[k] not in _flat("lists", "before_subject"):
                if self.kind(k) is not None and not self._noun_like(k, start):
                    return False
                k -= 1
            return g - k <= 4
        return False

    def _describes(self, i: int, start: int) -> bool:
        """Tell whether a participle only describes a noun ("an old brazed repair")."""
        first = i - 1 if i > start and self.words[i - 1] in _COMPOUND else i
        if first <= start or self.words[first - 1] not in _flat("lists", "before_described"):
            return False
        if first - 2 >= start and self.words[first - 2] == "with":
            return False  # "replaced it with a brazed union": this is how it was done
        after = self.words[i + 1] if i + 1 < len(self.words) else "."
        return after.isalpha() and after not in _flat("lists", "after_verbs") and self.kind(i + 1) is None

    def _matter(self, i: int) -> bool:
        """Tell whether a participle at the head belongs to a subject ("recovered gas must go")."""
        if (
            i + 1 >= len(self.words)
            or not self.w.opens(i)
            or self.words[i + 1] in _flat("lists", "after_verbs")
        ):
            return False
        _, end = self.sentence(i)
        return any(
            self.words[k]
            in ("has", "have", "must", "should", "will", "goes", "needs", "gets", "can", "costs")
            for k in range(i + 2, min(end, i + 4))
        )

    def _found_so(self, i: int, start: int) -> bool:
        """Tell whether a participle tells how a thing was found ("found the plug pulled out")."""
        follows = self.words[i + 1] if i + 1 < len(self.words) else "."
        if follows in _OBJECTS and follows not in ("in", "out", "all", "old", "new"):
            return False
        for j in range(i - 1, max(start, i - 7) - 1, -1):
            word = self.words[j]
            if word in (",", ";", "and", "but", "so", "then") or word in _OURS_WORDS:
                return False
            if word in ("found", "noticed", "saw", "spotted", "see"):
                return j < i - 1
            if self.kind(j) == "past" and word not in ("got",):
                return False
        return False

    def _passive_before(self, j: int, start: int) -> bool:
        """Tell whether the participle at j, or one it is joined to, stands behind a form of "be"."""
        g = self.skip_back(j - 1, start)
        if g >= start and self.words[g] in ("and", ",") and self.kind(j) == "past":
            previous = self._previous_verb(g, start)
            if previous is not None and j - previous <= 3:
                return self._passive_before(previous, start)
        return g >= start and (self.words[g] in _BE or self.words[g] == "be")

    def _open_past(self, i: int, start: int) -> Status | None:
        """Judge a past form without a helping verb: done, unless its object was only needed or denied."""
        words = self.words
        if self.framed(i) and not any(w in _OURS_WORDS for w in words[start:i]):
            return "planned"
        # "no charge added", "nothing replaced", "need the drier changed", "get it recovered"
        for j in range(i - 1, max(start, i - 6) - 1, -1):
            word = words[j]
            if word in (",", ";", "but", "and", "so", "then", ".") or word in _OURS_WORDS:
                break
            if word in ("nothing", "none", "neither", "nobody") and i - j <= 3:
                return "not_done"
            if word in ("no", "zero") and any(w in _flat("lists", "undone_nouns") for w in words[j + 1 : i]):
                # "no charge added"; but "no leaks found" and "no drop, evacuated it" deny something else
                return "not_done"
            if word in ("keep", "keeping"):
                return None  # "keep the coil cleaned"
            if self.kind(j) == "past" and word not in ("got", "used"):
                break
            if word in _flat("lists", "needs") or word in ("needing", "wants", "want"):
                g = self.skip_back(j - 1, start)
                if g >= start and words[g] in ("didn't", "don't", "doesn't", "not"):
                    return "not_done"
                if word == "get":
                    got = self.verb(j)
                    return got if got is not None else "planned"
                if word == "have" and g >= start and words[g] not in ("to", "will", "i'll", "we'll"):
                    break
                if g >= start and (words[g] in _flat("lists", "sources") or self._others_end(g, start)):
                    return None
                return "planned"
        before = self.whenever(i)
        if before is not None and self._present_between(before, i):
            return None
        return "done"

    def _present_between(self, start: int, end: int) -> bool:
        """Tell whether the words between are in the present ("once it's brazed", "after I've charged")."""
        return any(w in word_set("present_signs") for w in self.words[start:end])

    def _to_be(self, i: int, g: int, start: int) -> Status | None:
        """Judge "be" + participle by what stands before it."""
        words = self.words
        h = self.skip_back(g - 1, start)
        if h < start:
            return None
        word = self.words[h]
        if word == "to":
            found = self._infinitive(i, h, start)
            if (
                found is None
                and (h == start or words[h - 1] not in _flat("lists", "no_plan_to_be"))
                and not any(
                    self.kind(k) in ("past", "third") or words[k] in _BE or words[k] in _OURS_WORDS
                    for k in range(start, h)
                )
            ):
                return "planned"  # "compressor to be replaced"
            return found
        if word in _flat("modal", "negative"):
            return "not_done"
        if word == "not":
            return "not_done"
        if self.ends_with(h, "modal", "planned", start=start):
            return "planned"
        return None

    def _passive(self, i: int, g: int, start: int) -> Status | None:
        words = self.words
        word = words[g]
        if word.endswith("n't"):
            return "not_done"
        h = self.skip_back(g - 1, start)
        before = words[h] if h >= start else ""
        if word == "been":
            if before in ("not", "haven't", "hasn't", "hadn't", "never"):
                return "not_done"
            if before in ("had", "'d"):
                first, last = self.sentence(i)
                return "done" if self.has(first, last, "lists", "this_job") is not None else None
            if before in ("should", "could", "would", "might", "must", "may"):
                return None
            clause = self.clause_start(i)
            if any(
                w in word_set("done_before_signs") for w in words[clause : min(i + 3, self.clause_end(i))]
            ):
                return None
            if before in ("has", "have", "'s") and self.whenever(i) is not None:
                return None  # "once it has been recovered"
            if before == "have":
                hh = self.skip_back(h - 1, start)
                if hh >= start and words[hh] in ("should", "could", "would", "might", "must", "may"):
                    return None
        if word == "being" and before in ("without", "not"):
            return "not_done"
        if before in ("not", "never", "no", "nothing", "none", "neither", "nobody"):
            return "not_done"
        # "no refrigerant was added"
        for j in range(h, max(start, h - 4) - 1, -1):
            if words[j] in (",", ";", "but", "and", "so", "then"):
                break
            if words[j] in ("no", "nothing", "none", "neither"):
                return "not_done"
        when = self.whenever(i)
        if when is not None and word in ("is", "are", "'s", "gets"):
            return None
        if word == "gets" and self._later(i):
            return "planned"  # "the gasket gets changed next week"
        if word in ("gets", "getting"):
            return "planned" if word == "getting" and before in ("is", "'s") else None
        if word == "'s" and before in ("who", "he", "she"):
            return None
        if self._inferred(g, start):
            return None
        if word in ("is", "are", "'s") and words[i : i + 2] in (("fitted", "with"), ("equipped", "with")):
            return None  # "it is fitted with two driers"
        if word in ("is", "are", "'s") and any(
            w in _flat("lists", "kinds") for w in words[max(start, g - 4) : g]
        ):
            return None  # "this model is charged with eleven ounces"
        return "done"

    def _inferred(self, g: int, start: int) -> bool:
        """Tell whether the passive at word g is only concluded ("looks like it was changed")."""
        for j in range(start, g):
            n = self.begins_with(j, "lists", "inference", end=g)
            if n and not any(w in (",", ";", "but", "so") or w in _OURS_WORDS for w in self.words[j + n : g]):
                return True
        return False

    def _perfect(self, i: int, g: int, start: int) -> Status | None:
        words = self.words
        h = self.skip_back(g - 1, start)
        before = words[h] if h >= start else ""
        word = words[g]
        if before in ("without", "not", "never", "didn't", "don't", "couldn't", "can't"):
            return "not_done"
        if before in ("should", "could", "would", "might", "must", "may", "to", "you", "they", "he", "she"):
            return None
        if word == "had":
            if before in _OURS_WORDS or before in ("and", ",", "then", "that", ""):
                return "done"
            return None
        if word in ("have", "has") and before in ("i", "we", "", "and", ",", "it", "that"):
            return None if self.whenever(i) is not None else "done"
        if word == "having":
            return "done"
        return None

    def _has_to_wait(self, i: int) -> bool:
        """Tell whether the work named at word i is put off behind it ("brazing has to wait")."""
        end = self.clause_end(i)
        for j in range(i + 1, min(end, i + 7)):
            if self.words[j] in (",", ".", "and"):
                return False
            if self.words[j] == "wait" and self.words[j - 1] in ("to", "will", "must", "can", "'ll"):
                return True
        return False

    def _ing(self, i: int) -> Status | None:
        words = self.words
        start, _ = self.sentence(i)
        g = self.skip_back(i - 1, start)
        if self._has_to_wait(i):
            return "planned"
        if self.framed(i) and (g < start or words[g] not in ("without", "no", "not", "before", "after")):
            return "planned"
        if g < start:
            clause_end = self.clause_end(i)
            # "Brazing the joint tomorrow"; "Pulling a vacuum now": live speech counts as being done.
            return "planned" if self.has(i, clause_end, "lists", "planned") is not None else "done"
        best: tuple[int, str] | None = None
        for name in ("not_done", "planned", "none", "done"):
            n = self.ends_with(g, "before_ing", name, start=start)
            if n and (best is None or n > best[0]):
                best = (n, name)
        if best is None or best[1] == "none":
            return None
        status = best[1]
        if words[g] == "left" and words[i] in ("running", "working", "operating", "cooling"):
            return "done"  # "the system was left running"
        if status == "not_done":
            return "not_done"
        if status == "planned":
            before = self.skip_back(g - best[0], start)
            if before >= start and words[before] in ("not", "doesn't", "didn't", "won't", "don't"):
                return "not_done"
            if (
                words[g] == "be"
                and before >= start
                and words[before] in ("would", "could", "should", "may", "might")
            ):
                return None
            return "planned"
        word = words[g]
        if word in ("was", "were", "am", "are", "is", "'s", "i'm", "we're", "been"):
            return "done" if words[i] not in ("going",) else None
        if word in ("after", "while", "when", "by", "with", "through"):
            # The main clause tells whether this is still to come.
            start_c, end_c = self.sentence(i)
            if self.has(start_c, end_c, "modal", "planned") is not None and not self._past_between(
                start_c, end_c
            ):
                return None
            return "done"
        if word in (",", "and", "then"):
            previous = self._previous_ing(g, start)
            if previous is not None:
                return self.verb(previous)
            return (
                "planned"
                if self.has(start, g, "lists", "planned") is not None and not self._past_between(start, g)
                else "done"
            )
        return "done"

    def _previous_ing(self, g: int, start: int) -> int | None:
        for j in range(g - 1, max(start, g - 12) - 1, -1):
            if self.words[j] in (";", "but"):
                return None
            if self.kind(j) == "ing" and self.words[j] not in word_set("noun_ings"):
                return j
            if self.kind(j) == "past":
                return None
        return None

    # -- the noun -----------------------------------------------------------------------------------------

    def noun(self, start: int, end: int) -> Status | None:
        """Return what became of work named without a verb ("new drier", "caps on", "no brazing today")."""
        words = self.words
        _, last = self.sentence(start)
        i = start
        if not self.ours(i):
            return None
        if self.conditional(i) or self.advised(i):
            return None
        clause = self.clause_start(i)
        window = max(clause, i - 7)
        negated = planned = False
        for j in range(i - 1, window - 1, -1):
            word = words[j]
            if word in (";", ":") or (word == "," and not negated):
                break
            if word == "zero" and j > window and (words[j - 1] in NUMBER_WORDS or words[j - 1][:1].isdigit()):
                continue  # the last digit of a number: "part number four four zero power back on"
            if word == "none" and j > window and words[j - 1] in ("was", "is", "got", "found"):
                break  # "checked for voltage there was none": a result, told before
            if j == self.sentence(i)[0] and word in ("never", "don't") and self.kind(i) == "base":
                return None  # "never braze on a full system": advice
            if self.ends_with(j, "lists", "noun_negation", start=window) and self._reaches(j, i):
                negated = True
                break
            if self.ends_with(j, "lists", "negation", start=window) and j >= i - 4:
                negated = True
                break
            n = self.ends_with(j, "lists", "planned", start=window)
            if n:
                if j - n >= clause and words[j - n] in ("may", "might", "could", "would"):
                    return None
                if j - n >= clause and words[j - n] in ("no", "not", "didn't", "don't", "doesn't"):
                    negated = True
                    break
                planned = True
                break
            if self.kind(j) == "past" and word not in ("quoted", "ordered", "used", "left"):
                break
        if negated or self._denied_behind(end):
            return "not_done"
        if words[end : end + 1] in (("on",), ("of",)) and any(
            w in ("plate", "nameplate", "label", "tag", "sticker") for w in words[end : min(last, end + 4)]
        ):
            return None  # "test pressure on the plate"
        if words[end : end + 1] in (("would",), ("could",), ("should",), ("might",), ("takes",)):
            return None  # "a leak search would take an hour"
        if planned or self.framed(i) or self._has_to_wait(i) or self._listed_for_later(start, end):
            return "planned"
        if self.has(i, min(last, end + 4), "lists", "planned") is not None and self.clause_end(i) > end:
            tail = self.has(end, min(self.clause_end(i), end + 5), "lists", "planned")
            if tail is not None and not any(w in (",", "and", "then") for w in words[end:tail]):
                return "planned"
        # "before the evacuation", "once the vacuum", "for the pressure test"
        when = self.whenever(i)
        if when is not None and words[when] in ("before", "until", "till", "whenever"):
            return None
        return "done"

    def _listed_for_later(self, i: int, end: int) -> bool:
        """Tell whether work named in a row without a verb is put off ("vacuum and charge tomorrow")."""
        start, last = self.sentence(i)
        k = next((k for k in range(end, last) if self.begins_with(k, "lists", "plan_tails", end=last)), None)
        return k is not None and not any(
            self.kind(j) in ("past", "third") or self.words[j] in _BE or self.words[j] in _OURS_WORDS
            for j in range(start, last)
        )

    def _denied_behind(self, end: int) -> bool:
        """Tell whether the words behind a noun deny it ("pressure test was not carried out")."""
        if end >= len(self.words):
            return False
        _, last = self.sentence(end - 1)
        k = end
        while k < last and self.words[k] in ("was", "were", "is", "has", "have", "had", "been", "are"):
            k += 1
        if k < last and self.words[k] in _flat("lists", "put_off"):
            return self.words[k + 1] in (",", ".", ";", "and", "because", "this", "today", "as", "for", "so")
        if k >= last or self.words[k] not in _flat("lists", "negation"):
            return False
        k += 1
        while k < last and (self.words[k] in _flat("adverbs") or self.words[k] in ("been", "be", "get")):
            k += 1
        return k < last and self.words[k] in _flat("lists", "carried_out")

    def _reaches(self, j: int, i: int) -> bool:
        """Tell whether a noun negation at j reaches the noun at i: no verb and no comma between."""
        return all(self.kind(k) != "past" and self.words[k] not in (",", ";", "but") for k in range(j + 1, i))


def scopes_of(words: Words) -> Scopes:
    """Return the scopes of these words; made once and kept with the narration."""
    found = words.narration.found.get("scopes")
    if not isinstance(found, Scopes):
        found = words.narration.found["scopes"] = Scopes(words)
    return found
