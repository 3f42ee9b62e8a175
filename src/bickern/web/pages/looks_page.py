"""The page of looks: which tape comes first, whose words, light or dark, larger letters, and who is at the bench."""

import json
from dataclasses import dataclass, field, replace

from nicegui import ui
from nicegui.elements.html import Html

from bickern.desk.said import sample
from bickern.web import parts
from bickern.web.frame import Looks, Visit, framed, keep_looks
from bickern.web.looks import style
from bickern.web.pick import Pick
from bickern.web.place import Place

FIRST = (("", "as the shop has it"), ("in", "inches"), ("mm", "millimetres"))
ENGLISH = (("", "as the shop has it"), ("US", "US"), ("UK", "UK"))
FIRST_HINT = "Both are always shown. Under Ask, a bare number is read in it."
WORDS_HINT = "US: horn, vise, upset. UK: bick, vice, jump up."
LIGHT = (("", "as this machine has it"), ("light", "ink on paper"), ("dark", "chalk on slate"))


def pages(place: Place) -> None:
    """Registers the page of looks."""

    @ui.page("/looks")
    def looks() -> None:
        with framed(place, "Looks", "/looks") as visit:
            _Choosing(visit, visit.looks).laid_out()


@dataclass(slots=True)
class _Choosing:
    """One person choosing; each choice is kept at once, in this browser alone."""

    visit: Visit
    looks: Looks
    shown: Html = field(init=False)

    def laid_out(self) -> None:
        """What can be chosen, and how it then reads."""
        seen = self.looks.seen
        parts.words("Kept in this browser alone. It changes how a job is shown, never what is reckoned.", quiet=True)
        with ui.element("div").classes("two"):
            with ui.element("div").classes("stack"):
                Pick("Which tape comes first", FIRST, seen.first, self._first, FIRST_HINT)
                Pick(
                    "Whose words",
                    ENGLISH,
                    seen.english,
                    self._english,
                    "US: horn, vise, upset. UK: bick, vice, jump up.",
                )
                Pick("Light", LIGHT, self.looks.light, self._light)
                parts.Tick("Larger letters", self.looks.large, self._large)
                hint = "Written beside what is taken from the rack or put on it."
                parts.field("My name", self.looks.who, self._who, hint=hint, name="who")
            with ui.element("section").classes("card").props("aria-label='How it reads'"):
                parts.heading("How it reads")
                self.shown = parts.rows(())
        self._show()

    def _first(self, said: str) -> None:
        self._seen(first=said)

    def _english(self, said: str) -> None:
        self._seen(english=said)

    def _seen(self, **said: str) -> None:
        keep_looks(**said)
        self.looks = replace(self.looks, seen=replace(self.looks.seen, **said))
        self._show()

    def _light(self, said: str) -> None:
        keep_looks(light=said)
        self._wear(replace(self.looks, light=said))

    def _large(self, yes: bool) -> None:
        keep_looks(large=yes)
        self._wear(replace(self.looks, large=yes))

    def _who(self, said: str) -> None:
        keep_looks(who=said.strip()[:60])

    def _wear(self, looks: Looks) -> None:
        """Puts the style sheet on in place: the page does not blink, and the cursor stays."""
        self.looks = looks
        sheet = json.dumps(style(looks.light, looks.large)).replace("</", "<\\/")
        ui.run_javascript(
            "for (const one of document.querySelectorAll('head style'))"
            f" if (one.textContent.includes('--on-ember:')) {{ one.outerHTML = {sheet}; break }}"
        )

    def _show(self) -> None:
        self.shown.set_content(parts.rows_html(sample(self.looks.seen, self.visit.place.shop)))
