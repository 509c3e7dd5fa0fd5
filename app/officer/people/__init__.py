"""One person: standing, decisions, account, phones, erasing a name."""
