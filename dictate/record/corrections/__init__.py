"""What people changed after the recording: an append-only log beside the record, and its replay.

`record.json` is never touched. `corrections.jsonl` lies beside it, one entry of the log a line (UTF-8 JSON,
see `visit.Correction`); an entry is only ever added, and even taking an answer back is one. `replay` applies
the log to the record as it was first made, so the words, the sound and the first reading of them stay what
they were. An entry finds its item by id, words and place; one that fits nothing any more (the record was
written up anew) is not applied and is said in `problems[]`.

Actions of the log:

| action | does |
| --- | --- |
| `confirm` | the items in `about` are right: their reasons to look are removed |
| `change` | the items get the values in `fields`; their reasons to look are removed |
| `strike` | a reading becomes `retracted`, any other item is taken out |
| `machine` | the items belong to the machine in `fields["equipment"]` |
| `step` | a step that was done, or was not, and was not said: `fields["step"]`, `fields["status"]` |
| `answer` | typed or spoken words, read as if they had been said right there |
| `waive` | a question is set aside with the reason in `note` |
| `note` | a remark |
| `visit` | a fact about the visit, in `fields` |
| `acknowledge` | the customer (`text`) saw the record |
| `withdraw` | takes back the entry named in `target` |

The way through the modules:

* the file beside the record (log.py);
* the items that an entry means: all of them, and by id (items.py); found again by words and place
  (anchors.py);
* the replay (replaying.py): each entry applied (applied.py), after the answers in words were read where they
  belong (in_words.py) and what they brought was taken over (taking_over.py), to the right machine
  (machines.py);
* after the checks have run again, the questions that were set aside (settled.py).
"""

from dictate.record.corrections.anchors import anchor, find
from dictate.record.corrections.in_words import AROUND, WHOLE_WORDS, ReadAgain
from dictate.record.corrections.items import item_by_id
from dictate.record.corrections.log import (
    FILE,
    active,
    append,
    load,
    locked,
    log_path,
    next_id,
    state_hash,
)
from dictate.record.corrections.replaying import replay
from dictate.record.corrections.settled import OPEN, settle

__all__ = [
    "AROUND",
    "FILE",
    "OPEN",
    "WHOLE_WORDS",
    "ReadAgain",
    "active",
    "anchor",
    "append",
    "find",
    "item_by_id",
    "load",
    "locked",
    "log_path",
    "next_id",
    "replay",
    "settle",
    "state_hash",
]
