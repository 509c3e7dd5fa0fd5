"""“Is injection right?”: what the published charts lead to. HTTP only: parse, call, answer."""

from flask import render_template, request

from app.trade.crack_width import width_limits
from app.trade.repair_choice import repair_choice
from app.trainer.blueprint import Page, curriculum, trainer
from app.trainer.jobs.choice_forms import ChoiceForm
from app.trainer.jobs.choice_words import answer_words, limit_lines, reason_lines


@trainer.get("/repair-choice")
def repair_choice_page() -> Page:
    """Show the questions, and once they are answered the answer with every reason and source."""
    form = ChoiceForm(request.args)
    if not request.args:
        return render_template("trainer/repair-choice.html", form=form, found=None)
    if not form.validate():
        return render_template("trainer/repair-choice.html", form=form, found=None), 422
    width = float(form.width.quantity_data)
    found = repair_choice(
        form.movement.data,
        form.pattern.data,
        form.strength.data == "yes",
        form.water.data,
        width,
        float(form.temperature.quantity_data),
        form.member.data,
    )
    limits = width_limits(width)
    names = dict.fromkeys(reason.source for reason in found.reasons)
    names |= dict.fromkeys(limit.source for limit in limits.limits)
    return render_template(
        "trainer/repair-choice.html",
        form=form,
        found=found,
        answer=answer_words(found.choice),
        reasons=reason_lines(found, limits, curriculum()),
        limits=limit_lines(limits, curriculum()),
        sources=[(name, curriculum().source(name)) for name in names],
    )
