"""The words of the trade, read from the content folder once for each process. No Flask here."""

from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from app.curriculum.glossary import Glossary
from app.curriculum.loading.glossary import load_glossary


@lru_cache(maxsize=4)
def glossary_in(folder: Path) -> Glossary:
    """Return the words in a content folder. Raises ContentErrors."""
    return load_glossary(folder)


def digest_of(glossary: Glossary) -> str:
    """Return what tells one state of the words from another."""
    return sha256(glossary.model_dump_json().encode()).hexdigest()
