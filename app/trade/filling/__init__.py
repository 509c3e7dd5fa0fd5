"""The crack-fill model, in parts. app/trade/fill.py is its door; numpy and scipy stay in here."""
