"""The Set step as a conversation at the terminal. Every answer is kept at once."""

from collections.abc import Iterable, Mapping
from copy import deepcopy
from dataclasses import replace
from itertools import count
from pathlib import Path
from typing import Any

import click

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.calibration.setting import Setting, where_next
from evenstand.tasks.documents.setting import catches, next_shown, notes, setting_shown
from evenstand.tasks.drill.machines import value_of
from evenstand.tasks.job.file import read_job
from evenstand.tasks.job.said import test_weight_in
from evenstand.tasks.job.tables import one
from evenstand.tasks.job.writer import Journal
from evenstand.tasks.parsing.given import Given
from evenstand.tasks.parsing.warned import Warned, ask_about

from .catch_questions import (
    asked_of,
    catch_questions,
    finished,
    is_weighed,
    weighed,
)
from .flags import Flag
from .output import Out
from .questions import SETUP, Answers, Question

BACK = ("b", "back")
YES, NO = ("y", "yes"), ("", "n", "no")
INTERRUPTED = 130
RATE = next(i for i, question in enumerate(SETUP) if question.path == ("target", "rate"))


class Dialogue:
    """Questions, answers, and the way back through them.

    ``at`` is the next question: those of the set-up first, then those of a
    catch, over and over.
    """

    def __init__(self, journal: Journal, answers: Mapping[str, Any], out: Out) -> None:
        self.journal, self.out = journal, out
        self.answers: Answers = deepcopy(dict(answers))
        self.typed: dict[tuple[object, ...], str] = {}
        self.past: list[tuple[int, Answers]] = []
        self.of_catch: tuple[Question, ...] = ()
        self.at = resume(self.answers)
        self.section = ""
        self.said: list[str] = []

    def run(self) -> None:
        """Ask until a notch is accepted, or until the person has had enough."""
        self._greet()
        try:
            while self._step():
                pass
        except click.Abort:
            self.out.say("", f"Saved in {self.journal.path}. {self._go_on()}")
            raise click.exceptions.Exit(INTERRUPTED) from None

    def _greet(self) -> None:
        text = (
            "Use any unit: 7.5 in, 8 ft 3 in, 60 lb/ac, 3 ± 2%. "
            "Press Enter to use the answer in [ ]. Type b to go back. "
            f"Press Ctrl-C to stop: every answer is already saved in {self.journal.path}."
        )
        self.out.page(
            [*self.out.sheet.heading("Calibrate"), *self.out.sheet.paragraph(text, indent=1)]
        )

    def _go_on(self) -> str:
        return f"To continue: evenstand calibrate {self.journal.path} --continue"

    def _step(self) -> bool:
        """Ask one question, or say where to go; False when it is over."""
        if self.at >= len(SETUP) and not self.of_catch:
            return self._advise()
        questions = (*SETUP, *self.of_catch)
        if self.at == len(questions):
            self.at, self.of_catch = len(SETUP), ()
        elif questions[self.at].when(self.answers):
            self._ask(questions[self.at])
        else:
            self.at += 1
        return True

    def _advise(self) -> bool:
        """Say where the lever goes; False when nothing more is to be caught."""
        try:
            found = where_next(read_job(finished(self.answers)))
        except MeasurementError as refused:
            need = self.out.write(refused.need)
            self.out.say("")
            self.out.page(self.out.sheet.points([f"That can't be done: {need}."], sign="!"))
            self.at = RATE
            return True
        self.out.say("")
        pen = self.out.pen
        told = next_shown(found, pen, said=self.said)
        self.out.show(replace(told, sections=(catches(found, pen),)))
        self.said = notes(found, pen)
        latest = ("catch", len(found.caught))
        self._ask_back([each for each in found.job.warnings if each.path[:2] == latest])
        accepted = found.choice.ending == "accepted" and self.past
        if accepted or (found.stop and not self._another()):
            self._end(found)
            return False
        self.of_catch = catch_questions(found, system=self.out.style.system)
        self.section = f"Catch {weighed(self.answers) + 1}"
        self._head(self.section)
        return True

    def _head(self, section: str) -> None:
        self.out.say("")
        self.out.page(self.out.sheet.heading(section))

    def _another(self) -> bool:
        while True:
            text = self._prompt("Do another catch anyway?", "no").casefold()
            if text in BACK:
                self._back()
            if text in (*BACK, *YES):
                return True
            if text in NO:
                return False
            self.out.say("   Answer yes or no.")

    def _end(self, found: Setting) -> None:
        self.out.say("")
        self.out.show(setting_shown(found, self.out.pen))
        self.out.say("", f"Saved in {self.journal.path}. {self._go_on()}")

    def _ask_back(self, warnings: Iterable[Warned]) -> None:
        """Ask about what is rarely meant; the answer stands unless it is undone."""
        texts = [f"{self.out.write(each.say)} If not, type b to go back." for each in warnings]
        self.out.page(self.out.sheet.points(texts, sign="?"))

    def _ask(self, question: Question) -> None:
        if question.section and question.section != self.section:
            self.section = question.section
            self._head(self.section)
        default = self._default(question)
        text = self._prompt(question.ask, default, like=question.like, optional=question.optional)
        if text.casefold() in BACK:
            self._back()
        elif not text and question.optional:
            self._keep(self.answers, question, stay=False)
        elif not text:
            self.out.say("   An answer is needed.")
        else:
            self._take(question, text)

    def _prompt(
        self, ask: str, default: str | None, *, like: str = "", optional: bool = False
    ) -> str:
        """Ask at the terminal; what stands in brackets is what Enter gives."""
        hint = f"  ({like})" if like else ""
        shown = f"[{default}] " if default else "[none] " if optional else ""
        for line in self.out.sheet.paragraph(f"{ask}{hint}", indent=1):
            self.out.say(line.plain)
        text = click.prompt(f" › {shown}", default="", show_default=False, prompt_suffix="")
        return str(text).strip() or default or ""

    def _default(self, question: Question) -> str | None:
        """What was answered before going back, else what the question offers."""
        if question.many:
            return None
        typed = self.typed.get(self._place(question))
        if typed is None and question.path[0] != "catch":
            value = question.given(self.answers)
            typed = None if value is None else str(value)
        return question.default(self.answers) if typed is None else typed

    def _place(self, question: Question) -> tuple[object, ...]:
        """Tell the same question about one catch from that about another."""
        number = weighed(self.answers) if question.path[0] == "catch" else 0
        return (*question.path, number)

    def _take(self, question: Question, text: str) -> None:
        """Try an answer; keep it, or say what is wrong with it."""
        tried = deepcopy(self.answers)
        try:
            question.answer(tried, text)
            question.check(tried)
        except MeasurementError as refused:
            self.out.page(self.out.sheet.points([self.out.write(refused.need)], sign="!"))
            return
        self._ask_back(_about(tried, question, text))
        self.typed[self._place(question)] = text
        self._keep(tried, question, stay=question.many)

    def _keep(self, answers: Answers, question: Question, *, stay: bool) -> None:
        self.past.append((self.at, self.answers))
        self.answers = answers
        self.journal.keep(answers)
        self.at += 0 if stay else 1

    def _back(self) -> None:
        """Undo the last answer; it is offered again, and in the file until then."""
        if not self.past:
            self.out.say("   This is the first question.")
            return
        self.at, self.answers = self.past.pop()
        if self.at < len(SETUP):
            self.of_catch, self.section = (), SETUP[self.at].section or self.section


def _about(answers: Answers, question: Question, text: str) -> tuple[Warned, ...]:
    """Return the questions about an answer of a kind that has usual limits."""
    if question.path[0] == "catch":
        return ()
    weight = value_of(test_weight_in(one(answers, "seed").given))
    return ask_about(Given({question.key: text}, Flag), test_weight=weight)


def resume(answers: Answers) -> int:
    """Find the question to go on with: the first behind all that were answered."""
    catches = answers.get("catch", [])
    if catches:
        return len(SETUP) + (0 if is_weighed(catches[-1]) else asked_of(catches[-1]))
    answered = [i for i, question in enumerate(SETUP) if question.given(answers) is not None]
    if not answered:
        return 0
    return answered[-1] + (0 if SETUP[answered[-1]].many else 1)


def start(out: Out) -> None:
    """Ask where to keep the answers, then all the rest."""
    Dialogue(Journal(_file(free_name(), out)), {}, out).run()


def _file(offered: Path, out: Out) -> Path:
    """Ask for a file that is not there yet."""
    while True:
        text = click.prompt(
            f" File to save the answers in\n › [{offered}] ",
            default="",
            show_default=False,
            prompt_suffix="",
        )
        path = Path(str(text).strip() or offered)
        path = path if path.suffix == ".toml" else path.with_name(f"{path.name}.toml")
        if path.exists():
            out.say(f" ! {path} is there already: evenstand calibrate {path} --continue")
        elif not path.parent.is_dir():
            out.say(f" ! there is no folder {path.parent}")
        else:
            return path


def free_name() -> Path:
    """Return a name that no file has yet."""
    names = (Path(f"job-{n}.toml" if n > 1 else "job.toml") for n in count(1))
    return next(path for path in names if not path.exists())
