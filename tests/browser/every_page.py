"""Every page there is, by who opens it; tests/house/test_every_page_listed.py holds the list.

An address may leave places open, such as ``{job}``; tests/browser/furnished.py fills them.
"""

# Addresses that answer with a file, plain data or another address, never with a page.
NO_PAGES = frozenset(
    {
        "web.static",
        "web.stylesheet",
        "web.script",
        "web.health",
        "web.home",
        "phone.worker",
        "phone.list_of_pages",
        "officer.board_file",
        "officer.photo",
        "trainer.photo",
        "officer.first_approval",  # only before the first approval; the demo has its own
    }
)

NO_ENDPOINT = ""  # the page that says there is none

STRANGER = {
    "web.sign_in": ["/sign-in"],
    "public.sources": ["/sources"],
    "phone.offline": ["/offline"],
    NO_ENDPOINT: ["/health/no-such-page"],
}

WORKER = {
    "worker.learn": ["/learn"],
    "worker.module": ["/learn/port-setting", "/learn/safety-gear"],
    "worker.step": ["/learn/port-setting/steps/1", "/learn/ratio-sample/steps/2"],
    "worker.practice_questions": ["/learn/port-setting/practice"],
    "worker.question": ["/quiz/{choice}/1", "/quiz/{choice}/2", "/quiz/{sum}/{sum_at}"],
    "worker.result": ["/quiz/{over}"],
    "worker.my_standing": ["/my-standing"],
    "worker.to_confirm": ["/repairs-to-confirm"],
    "worker.confirm_repair": ["/repairs-to-confirm/{signed}"],
    "practice.cracks": ["/practice-crack"],
    "practice.crack": ["/practice-crack/horizontal"],
    "practice.job": ["/practice-crack/jobs/{job}"],
    "practice.run": ["/practice-crack/runs/{run}"],
    "practice.opened": ["/practice-crack/runs/{opened}/opened"],
    "public.words": ["/words"],
    "outbox.waiting": ["/outbox"],
    "phone.kept": ["/on-this-phone"],
    NO_ENDPOINT: ["/no-such-page", "/jobs"],  # not there, and not for this role
}

TRAINER = {
    "trainer.jobs": ["/jobs"],
    "trainer.new_job": ["/jobs/new"],
    "trainer.job": ["/jobs/{job}"],
    "trainer.crew": ["/jobs/{job}/crew", "/jobs/{job}/crew?person={ben}&ask=1"],
    "trainer.card": ["/jobs/{job}/card"],
    "trainer.card_options": ["/jobs/{job}/card/options"],
    "trainer.new_repair": ["/jobs/{job}/repairs/new"],
    "trainer.use": ["/jobs/{job}/use"],
    "trainer.resins": ["/resins"],
    "trainer.new_resin": ["/resins/new"],
    "trainer.resin": ["/resins/{resin}"],
    "trainer.repair_choice_page": ["/repair-choice"],
    "trainer.repairs": ["/repairs"],
    "trainer.repair": ["/repairs/{begun}", "/repairs/{whole}", "/repairs/{signed}"],
    "trainer.watch_module": ["/repairs/{whole}/ratio-sample"],
    "trainer.watch_item": ["/repairs/{whole}/ratio-sample/ratio-in-tolerance"],
    "trainer.ports": ["/repairs/{begun}/ports"],
    "trainer.port_row": ["/repairs/{begun}/ports/1"],
    "trainer.batch_clock": ["/repairs/{begun}/batches"],
    "trainer.judgement": ["/repairs/{begun}/judgement"],
    "trainer.at_the_wall": ["/repairs/{begun}/at-the-wall"],
    "trainer.review": ["/repairs/{begun}/review", "/repairs/{whole}/review"],
    "trainer.confirm_sign_off": ["/repairs/{held}/confirm"],
    "trainer.devices": ["/devices"],
    "trainer.late": ["/late-entries"],
}

OFFICER = {
    "officer.board": ["/board"],
    "officer.crews": ["/crews"],
    "officer.crew": ["/crews/{job}", "/crews/{job}?person={ben}&ask=1"],
    "officer.people": ["/people"],
    "officer.new_person": ["/people/new"],
    "officer.person": ["/people/{ben}"],
    "officer.account": ["/people/{ben}/account"],
    "officer.authorise": ["/people/{ben}/authorise"],
    "officer.decide": ["/people/{ben}/preparation-hand/decide/suspend"],
    "officer.merge_people": ["/merge"],
    "officer.missing": ["/missing", "/missing?qualification=pump-operator"],
    "officer.compare": ["/differences", "/differences?as_of={held_on}&then={held_on}"],
    "officer.phones": ["/phones"],
    "officer.phone": ["/phones/{phone}"],
    "officer.record": ["/records/{practical}", "/records/{quiz}", "/records/{grant}"],
    "officer.erase_name": ["/people/{ben}/erase"],
    "officer.corrections": ["/corrections"],
    "officer.correction": ["/corrections/{proposal}"],
    "officer.texts": ["/texts"],
    "officer.text": ["/texts/policy", "/texts/ratio-sample"],
    "officer.waiting_text": ["/texts/policy/waiting"],
    "officer.compare_texts": ["/texts/policy/compare"],
    "texts.as_it_was": ["/text/{text}"],
    "outbox.bring_in": ["/outbox/import"],
}

# Who opens them: sign-in name of the invented crew ("" for a stranger), and the pages.
ROLES = {
    "stranger": ("", STRANGER),
    "worker": ("nia", WORKER),
    "trainer": ("tomas", TRAINER),
    "officer": ("olga", OFFICER),
}

# What a hand or a trainer holds sideways: each kind of screen once.
SIDEWAYS = frozenset(
    {
        "worker.learn",
        "worker.step",
        "worker.question",
        "practice.run",
        "practice.opened",
        "trainer.job",
        "trainer.card",
        "trainer.watch_item",
        "trainer.at_the_wall",
        "trainer.review",
        "officer.board",
    }
)
