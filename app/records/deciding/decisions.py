"""Every decision: history + request + rule + now -> event, or a Refusal that says why not.

PURE. Learning and watching stand in learning.py, the officer's decisions about a person in
granting.py, those about trainers and records in correcting.py, corrections by two people in
proposing.py, about texts in revising.py; callers take all of them from here. Sending an act again
(same id) is decided as it was the first time; the ledger then answers with the first receipt.
"""

from app.records.deciding.acts import Act
from app.records.deciding.correcting import (
    decide_authorise_trainer,
    decide_counter_entry,
    decide_merge,
    decide_withdraw_trainer,
)
from app.records.deciding.erasing import decide_erase_name
from app.records.deciding.granting import decide_grant, decide_lift, decide_revoke, decide_suspend
from app.records.deciding.learning import (
    decide_countersign,
    decide_practical,
    decide_quiz,
    decide_training,
    decide_use,
    decide_worker_countersign,
)
from app.records.deciding.proposing import alone, decide_confirm, decide_propose
from app.records.deciding.revising import decide_approve_text

__all__ = [
    "Act",
    "alone",
    "decide_approve_text",
    "decide_authorise_trainer",
    "decide_confirm",
    "decide_counter_entry",
    "decide_countersign",
    "decide_erase_name",
    "decide_grant",
    "decide_lift",
    "decide_merge",
    "decide_practical",
    "decide_propose",
    "decide_quiz",
    "decide_revoke",
    "decide_suspend",
    "decide_training",
    "decide_use",
    "decide_withdraw_trainer",
    "decide_worker_countersign",
]
