"""The practice crack: a crack that fills by real flow, and the wall opened at the end.

Open to anybody signed in: new hires practise, trainers try a spacing. The model (app/trade/fill.py)
loads numpy and scipy, so it is imported only where somebody acts; pages are read from what is kept.
"""
