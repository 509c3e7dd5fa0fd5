"""The four qualifications, and who must have which before."""


def test_the_four_and_what_they_take(curriculum):
    assert list(curriculum.qualifications) == [
        "preparation-hand",
        "pump-operator",
        "lead-injector",
        "trainer",
    ]
    lead, trainer = curriculum.qualification("lead-injector"), curriculum.qualification("trainer")
    assert lead.prerequisites == ("preparation-hand", "pump-operator")
    assert trainer.prerequisites == ("lead-injector",)
    assert lead.modules == trainer.modules == tuple(curriculum.modules)


def test_the_first_two_together_teach_all_but_the_injection_itself(curriculum):
    taught = {
        module
        for name in ("preparation-hand", "pump-operator")
        for module in curriculum.qualification(name).modules
    }
    assert set(curriculum.modules) - taught == {"injection-order"}


def test_the_defaults_of_the_standing_rules(curriculum):
    """Defaults of the assessment rules §5: 24 and 6 months, 14 and 30 days, 12 months, 30 days."""
    for one in curriculum.qualifications.values():
        assert (one.validity_months, one.continuity_months, one.evidence_months) == (24, 6, 12)
        assert (one.late_entry_days, one.grace_days, one.due_soon_days) == (14, 30, 30)
        assert (one.practicals_required, one.trainers_required) == (2, 2)
        assert one.checklist_modules() == one.modules
