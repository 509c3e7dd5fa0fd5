"""What a signature under a record means, and putting it there.

The printed name, the time and the meaning are kept with the record, so that a name corrected later
changes nothing that was signed. Source: 21 CFR 11.50 asks for these three on signed records.
"""

from dataclasses import replace
from typing import TypeVar

from app.records.events import Event
from app.records.observation import Language, Signature

E = TypeVar("E", bound=Event)

MEANINGS = {
    "grant": "I grant this qualification. I read the evidence and had no part in it.",
    "suspend": "I suspend this qualification for the reason given.",
    "lift": "I lift this suspension for the reason given.",
    "revoke": "I revoke this qualification for the reason given.",
    "trainer-authorised": "I authorise this trainer to sign for the qualification.",
    "trainer-withdrawn": "I withdraw this trainer's authorisation for the reason given.",
    "content-revised": "I approve this text, in force from the day given. I did not write it.",
    "counter-entry": "I make the record named here void for the reason given.",
    "identity-merged": "I state that these two entries are one person.",
    "correction-proposed": "I propose this correction for the reason given.",
    "name-erased": "I erase this person's name for the reason given.",
    "use": "I verify that this job was done under the qualification.",
    "worker-countersign": "I did this repair, and it happened as written here.",
    "countersign": "I vouch for the record named here, which does not count without my word.",
}


def signed(event: E, printed_name: str, language: Language = "") -> E:
    """The event with its signature: name as printed now, time of recording, meaning of its kind.

    printed_name: as it stands on the signing screen; language: the screen's. Raises KeyError for a
    kind nobody signs in this way (training and quiz are recorded, a supervised repair carries its
    own signature).
    Example: ``signed(grant, "Olga Invented").signature.meaning``.
    """
    signature = Signature(
        printed_name=printed_name,
        meaning=MEANINGS[event.kind],
        signed_at=event.recorded_at,
        language=language,
    )
    return replace(event, signature=signature)
