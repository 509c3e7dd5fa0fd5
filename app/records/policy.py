"""The rule a standing is judged by. Every number of it is a field."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

from app.trade.errors import Refusal

if TYPE_CHECKING:
    from app.curriculum.model import Curriculum, Qualification


Asked: TypeAlias = Literal["off", "asked", "required"]


@dataclass(frozen=True, kw_only=True, slots=True)
class QualificationPolicy:
    """What one qualification asks for and how long it lasts. The defaults are our design.

    modules: ids, each with training and a passed quiz; validity_months and continuity_months may
    be None for "no limit"; worker_countersign: whether the watched person is asked to say "I did
    this repair", or a supervised repair only counts once they have. Raises ValueError for a number
    below 0 or more trainers than supervised repairs. Source: assessment section 5.
    Example: ``QualificationPolicy(id="pump-operator", modules=("pump-purge",))``.
    """

    id: str
    modules: tuple[str, ...]
    practicals_required: int = 2
    trainers_required: int = 2
    validity_months: int | None = 24
    continuity_months: int | None = 6
    late_entry_days: int = 14
    ahead_days: int = 1
    grace_days: int = 30
    evidence_months: int = 12
    due_soon_days: int = 30
    prerequisites: tuple[str, ...] = ()
    worker_countersign: Asked = "off"
    policy_version: str = ""

    def __post_init__(self) -> None:
        for name in NUMBERS:
            value = getattr(self, name)
            if value is not None and value < 0:
                raise ValueError(f"{name} must be 0 or more, not {value}")
        if self.trainers_required > self.practicals_required:
            raise ValueError(
                f"{self.practicals_required} supervised repairs "
                f"cannot come from {self.trainers_required} trainers"
            )


NUMBERS = (
    "practicals_required",
    "trainers_required",
    "validity_months",
    "continuity_months",
    "late_entry_days",
    "ahead_days",
    "grace_days",
    "evidence_months",
    "due_soon_days",
)


class NoSuchQualification(Refusal):
    """Asked for a qualification the policy does not have."""

    template = "There is no qualification called {qualification}."


@dataclass(frozen=True, slots=True)
class Policy:
    """All qualifications' rules by id. Example: ``policy.rule("lead-injector")``."""

    qualifications: Mapping[str, QualificationPolicy]

    def rule(self, qualification: str) -> QualificationPolicy:
        """One qualification's rule. Raises NoSuchQualification for an unknown id."""
        try:
            return self.qualifications[qualification]
        except KeyError:
            raise NoSuchQualification(qualification=qualification) from None


def policy_from(curriculum: "Curriculum") -> Policy:
    """The policy written in the content files.

    curriculum: as loaded by app.curriculum. Returns a Policy. Raises ValueError for numbers a
    QualificationPolicy refuses. Example: ``policy_from(curriculum).rule("pump-operator")``.
    """
    version = curriculum.policy_version
    return Policy({q.id: _rule_from(q, version) for q in curriculum.qualifications.values()})


def _rule_from(q: "Qualification", version: str) -> QualificationPolicy:
    return QualificationPolicy(
        id=q.id,
        modules=q.modules,
        practicals_required=q.practicals_required,
        trainers_required=q.trainers_required,
        validity_months=q.validity_months,
        continuity_months=q.continuity_months,
        late_entry_days=q.late_entry_days,
        grace_days=q.grace_days,
        evidence_months=q.evidence_months,
        due_soon_days=q.due_soon_days,
        prerequisites=q.prerequisites,
        worker_countersign=q.worker_countersign,
        policy_version=version,
    )
