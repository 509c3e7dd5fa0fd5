"""The name under a signature, as it was printed then; or that it was erased."""

from app.accounts.erasing import NAME_ERASED
from app.accounts.printed_names import is_seal, sealed_name
from app.database import reading
from app.records.observation import Signature


def printed_name(signature: Signature, person_id: str) -> str:
    """Return the name a record was signed with; person_id: who signed, for a name that is gone."""
    if not is_seal(signature.printed_name):
        return signature.printed_name
    with reading() as connection:
        found = sealed_name(connection, signature.printed_name)
    return found or NAME_ERASED.format(id=person_id)
