"""What a job card would say about a crack and its resin, as pairs ready to print."""

from flask_babel import gettext as _

from app.trade.filling.crack import Crack
from app.worker.practice.face import spacing_mm, volume_ml, widths_mm
from app.worker.practice.words import orientation, pressure, shown, volume

Pairs = list[tuple[str, str]]


def facts_of(crack: Crack) -> Pairs:
    """The crack as it was measured, the ports, the resin and the pump."""
    resin = crack.resin
    return [
        (_("Runs"), orientation(crack.orientation)),
        (_("Length"), shown(crack.length_m * 1000, "length")),
        (_("Depth"), shown(crack.depth_m * 1000, "length")),
        (_("Width by the gauge"), _span(widths_mm(crack))),
        (_("Ports"), _ports(crack)),
        (_("Crack volume, worked out"), volume(volume_ml(crack))),
        (_("Resin, mixed: viscosity"), shown(resin.viscosity_pa_s, "viscosity")),
        (_("Mixed before the start"), _age(resin.age_s)),
        (_("Gels after mixing"), shown(resin.gel_time_s / 60, "time")),
        (_("Pump starts at"), pressure(crack.pump.pressure_pa)),
        (_("The ports bear up to"), pressure(crack.port_limit_pa)),
    ]


def _ports(crack: Crack) -> str:
    return _(
        "%(count)s, %(spacing)s apart", count=len(crack.ports), spacing=_span(spacing_mm(crack))
    )


def _span(ends: tuple[float, float]) -> str:
    low, high = (shown(end, "length") for end in ends)
    return low if low == high else _("%(low)s to %(high)s", low=low, high=high)


def _age(age_s: float) -> str:
    return shown(age_s / 60, "time") if age_s else _("just now")
