"""Flask manners without a rule of the trade: guards, headers, errors, sessions, preferences."""
