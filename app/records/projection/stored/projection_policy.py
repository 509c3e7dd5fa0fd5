"""The rules a projection was worked out by, kept with it, and a fingerprint to compare them by."""

import json
from dataclasses import fields
from functools import lru_cache
from hashlib import sha256
from typing import Any

from app.records.policy import Policy, QualificationPolicy
from app.records.reading import mapping, read

# Raise this when the code of the rules changes (records/standing): every projection
# made before is then no longer used until it is rebuilt.
EDITION = 1

# These are looked at when somebody asks, so intervals do not depend on them.
_NOT_KEPT = ("id", "prerequisites", "due_soon_days", "policy_version")
_KEPT = tuple(f.name for f in fields(QualificationPolicy) if f.name not in _NOT_KEPT)


def policy_text(policy: Policy) -> str:
    """The rules that intervals depend on, as JSON; the order of the qualifications is kept."""
    rules = {name: _kept(rule) for name, rule in policy.qualifications.items()}
    return json.dumps({"edition": EDITION, "qualifications": rules}, separators=(",", ":"))


def _kept(rule: QualificationPolicy) -> dict[str, Any]:
    return {name: getattr(rule, name) for name in _KEPT}


@lru_cache(maxsize=16)
def policy_in(text: str) -> Policy:
    """The policy in a text of policy_text(); what is not kept has its default."""
    rules = mapping(json.loads(text)["qualifications"], "policy")
    return Policy(
        {
            name: read(QualificationPolicy, {"id": name, **mapping(rule, name)}, f"policy.{name}")
            for name, rule in rules.items()
        }
    )


def fingerprint(policy: Policy) -> str:
    """SHA-256 of the rules that intervals depend on, in hex."""
    return sha256(policy_text(policy).encode()).hexdigest()
