"""What a hand's decision changes at the wall."""

from app.trade.filling.actions import Decision, NoHose
from app.trade.filling.outside import Outside
from app.trade.filling.telling import Teller


def do(decision: Decision, outside: Outside, teller: Teller) -> None:
    """Everything but waiting. Errors: OutOfRange, NoHose."""
    match decision.act:
        case "move-to":
            _move_to(outside.check_port(decision.number), outside, teller)
        case "pump":
            if not outside.hose_at:
                raise NoHose
            if not outside.is_valve_open:
                teller.forget_pumping()
            outside.is_valve_open = True
        case "close":
            outside.is_valve_open = False
        case "cap":
            _cap(outside.check_port(decision.number), outside)
        case "uncap":
            outside.capped.discard(outside.check_port(decision.number))
            teller.forget_port(decision.number)
        case "patch":
            outside.patched.add(outside.check_pinhole(decision.number))
        case "pressure":
            outside.pressure_pa = decision.amount
            teller.forget_pumping()


def _move_to(port: int, outside: Outside, teller: Teller) -> None:
    if port == outside.hose_at:
        return
    outside.is_valve_open = False
    if outside.hose_at:
        teller.forget_port(outside.hose_at)
    outside.capped.discard(port)
    outside.hose_at = port


def _cap(port: int, outside: Outside) -> None:
    if port == outside.hose_at:
        outside.hose_at = 0
        outside.is_valve_open = False
    outside.capped.add(port)
