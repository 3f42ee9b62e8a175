"""The page of questions: all of them to look through, and one at a time with its answer while it is typed."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from html import escape
from urllib.parse import urlencode

from nicegui import run, ui
from nicegui.element import Element
from nicegui.elements.html import Html

from bickern.desk.ask.heard import Heard, Said, example_of, fits, grouped, hear, on_page, question_named
from bickern.desk.ask.question import Question, Word
from bickern.desk.asker import Asker, asker
from bickern.desk.said import said
from bickern.desk.seen import Seen, as_seen
from bickern.measure.finding import Finding
from bickern.measure.units.words import System
from bickern.web import parts
from bickern.web.field import Field
from bickern.web.frame import Visit, framed
from bickern.web.pick import Pick
from bickern.web.place import Place

KEYS = ("1/2", "1/4", "1/8", "1/16", "/", " ", "x", "sq", "rd", "in", "mm", "ga")
"""What a phone's own keys make hard to write; each is put where the cursor stands."""
UNITS = "units"
"""What an address says of its bare numbers: another person's may mean the other tape."""
LONGEST = 200
"""Signs of one word that are heard."""
FEW = 4
"""Words to choose from that stand side by side; more make a list."""

STYLE = """
.ask-sought{max-width:30rem}
.ask-groups{columns:22rem 3;column-gap:2rem}
.ask-groups section{break-inside:avoid;margin-bottom:1.2rem}
.ask-groups h2{margin:.2rem 0 .3rem}
.ask-groups ul{list-style:none}
.ask-groups a{display:block;min-height:52px;padding:.45rem .8rem;color:var(--ink);text-decoration:none;
  border-bottom:1px solid var(--faint);background:var(--field)}
.ask-groups a b{display:block;color:var(--ember)}
.ask-groups a:hover{background:var(--faint)}
.asking{display:grid;grid-template-columns:minmax(0,24rem) minmax(0,1fr);grid-template-rows:auto 1fr;
  gap:.6rem 2rem;align-items:start}
.asking .ask-top{grid-column:2;grid-row:1}
.asking .ask-said{grid-column:2;grid-row:2}
.asking .ask-words{grid-column:1;grid-row:1/span 2;display:grid;gap:.9rem}
.asking .field input,.asking .field select{min-height:50px;font-size:1.25rem}
.asking .field textarea{font-size:1.25rem}
.cut-this{background:var(--field);border:2px solid var(--ink);padding:.5rem .9rem;min-height:5.6rem}
.cut-this .of{color:var(--soft);line-height:1.2}
.cut-this .fig{font-size:2.1rem;font-weight:700;line-height:1.15}
.cut-this .by{font-size:.92rem;color:var(--soft);line-height:1.25;margin-top:.15rem}
.keys{display:flex;flex-wrap:wrap;gap:6px;margin-top:.5rem}
.keys button{font:inherit;font-size:1.05rem;min-height:48px;min-width:52px;padding:.2rem .5rem;border-radius:3px;
  border:1px solid var(--line);border-bottom-width:3px;background:var(--field);color:var(--ink);cursor:pointer}
.keys button[data-key=" "]{font-size:.9rem;padding:.2rem 0}
.asking ::placeholder{color:var(--soft);opacity:1}
.keys button:hover{border-color:var(--ember)}
details.more summary{min-height:48px;display:flex;align-items:center;cursor:pointer;color:var(--ember)}
details.more summary::before{content:"+ ";white-space:pre;font-weight:700}
details.more[open] summary::before{content:"- "}
.may{border-top:1px solid var(--faint);padding-top:.6rem;display:grid;gap:.9rem}
@media (max-width:760px){
  .asking{grid-template-columns:minmax(0,1fr);grid-template-rows:none}
  .asking .ask-top,.asking .ask-said,.asking .ask-words{grid-column:1;grid-row:auto}
  .asking .ask-top{order:-1;position:sticky;top:0;z-index:5;background:var(--paper);padding-bottom:.4rem;
    border-bottom:1px solid var(--line)}
  .cut-this{min-height:4.4rem}
  .cut-this .fig{font-size:1.6rem}
  .keys{display:grid;grid-template-columns:repeat(6,1fr)}
  .keys button{min-width:0}
}
"""
PUT = """(e) => {
  const key = e.target.closest('[data-key]'); if (!key) return;
  const form = document.querySelector('.asking');
  const last = form.dataset.at && document.getElementById(form.dataset.at);
  const at = last || form.querySelector('.ask-words input[type=text],.ask-words textarea');
  if (!at) return;
  let words = key.dataset.key;
  const before = at.value.slice(0, at.selectionStart);
  if (before && !/[\\s\\/]$/.test(before) && !/^[ \\/]$/.test(words)) words = ' ' + words;
  if (words.trim() === 'x') words += ' ';
  at.setRangeText(words, at.selectionStart, at.selectionEnd, 'end');
  at.dispatchEvent(new Event('input', { bubbles: true }));
  at.focus();
}"""
"""Puts a key's words where the cursor was last, with a blank before them where a sign stands there."""
WHERE = """(e) => {
  if (e.target.matches('input[type=text],textarea')) e.currentTarget.closest('.asking').dataset.at = e.target.id;
}"""


def pages(place: Place) -> None:
    """Registers the questions and each one's own page."""

    @ui.page("/ask")
    def every(q: str = "") -> None:
        with framed(place, "Ask", "/ask") as visit:
            _every(visit, q[:LONGEST])

    @ui.page("/ask/{question}")
    def one(question: str) -> None:
        asked = question_named(question)
        title = f"Ask: {asked.name}" if asked else "Ask"
        with framed(place, title, "/ask") as visit:
            if asked is None:
                parts.words(f"There is no question “{question[:40]}”.")
                ui.link("All questions", "/ask").classes("plain")
                return
            _One(visit, asked).laid_out()


def _every(visit: Visit, sought: str) -> None:
    ui.add_css(STYLE)
    who = _asker(visit)

    def show(sought: str) -> None:
        shown.set_content(_list(sought, lambda text: said(text, who.shop)))

    hint = "a word of what you want to know: ring, weld, gauge, sheet"
    parts.field("Look for", sought, show, hint=hint, name="q").classes("ask-sought")
    shown = ui.html("", sanitize=False).classes("ask-groups").props("role=region aria-label='Questions'")
    show(sought)


def _list(sought: str, tell: Callable[[str], str]) -> str:
    """The questions that fit, under their heads."""
    found = [(head, [q for q in some if fits(q, sought)]) for head, some in grouped()]
    told = [
        f"<section><h2>{escape(tell(head))}</h2><ul>"
        + "".join(f'<li><a href="/ask/{q.name}"><b>{escape(q.name)}</b>{escape(tell(q.says))}</a></li>' for q in some)
        + "</ul></section>"
        for head, some in found
        if some
    ]
    return "".join(told) or "<p>No question has these words. Try one word alone.</p>"


def _asker(visit: Visit, units: str = "") -> Asker:
    """Who asks: this forge, its tape and words as this person wants them; `units`: of bare numbers, if told."""
    who = asker(visit.seen.first or None, visit.place.shop)
    assert who is not None, "only known tapes are kept"
    system = System(units) if units in tuple(System) else who.system
    return Asker(as_seen(who.shop, Seen(english=visit.seen.english)), system, who.findings)


@dataclass(slots=True)
class _One:
    """One question on one page."""

    visit: Visit
    question: Question
    who: Asker = field(init=False)
    words: dict[str, Said] = field(default_factory=dict)
    fields: dict[str, Field] = field(default_factory=dict)
    number: int = 0
    big: Html = field(init=False)
    found: Html = field(init=False)
    rows: Html = field(init=False)
    also: Html = field(init=False)
    more: Element = field(init=False)

    def laid_out(self) -> None:
        """The question with its words, what it gives, and what was found."""
        ui.add_css(STYLE)
        query = ui.context.client.request.query_params
        self.who = _asker(self.visit, query.get(UNITS, ""))
        self.words = dict(_from_address(self.question, query))
        bare = "inches" if self.who.system is System.INCH else "millimetres"
        parts.words(f"{self._tell(self.question.says)} A bare number is {bare}.", quiet=True)
        parts.findings(self.who.findings)
        with ui.element("div").classes("asking"):
            self._fields()  # first, for those who go by keys: what they put in stands above or beside it for eyes
            self._top()
            self._below()
        ui.link("All questions", "/ask").classes("plain")
        ui.timer(0, self._answer, once=True)

    def _tell(self, text: str) -> str:
        return on_page(said(text, self.who.shop))

    def _top(self) -> None:
        with ui.element("div").classes("ask-top"):
            self.big = ui.html("", sanitize=False).classes("cut-this").props("role=status")
            keys = ui.element("div").classes("keys").props("role=group aria-label='Put in'")
            with keys:
                for words in KEYS:
                    key = ui.html(escape(words.strip() or "blank"), tag="button", sanitize=False).props("type=button")
                    key.props["data-key"] = words
            keys.on("click", js_handler=PUT)
            keys.on("mousedown", js_handler="(e) => e.preventDefault()")  # the cursor stays in its field

    def _fields(self) -> None:
        needed = [w for w in self.question.words if w.usual is None and not w.flag]
        others = [w for w in self.question.words if w not in needed]
        ghosts = example_of(self.question, self.who.system)
        with ui.element("div").classes("ask-words") as made:
            for word in needed:
                self._field(word, ghosts.get(word.name, ""))
            with ui.element("div").classes("row"):
                parts.button("Put in the example", self._example)
                parts.button("Clear", self._clear)
            if others:
                with ui.element("div").classes("may"):
                    parts.heading("If it matters", 2)
                    for word in others:
                        self._field(word, ghosts.get(word.name, ""))
        made.on("focusin", js_handler=WHERE)

    def _field(self, word: Word, ghost: Said) -> None:
        """One word to be said, as the sort of word it is wants it."""
        name, means = word.name, self._tell(word.means)
        there = self.words.get(name, word.usual or "")
        if word.flag:
            parts.Tick(means, bool(there), lambda yes: self._said(name, yes))
        elif word.one_of and len(word.one_of) <= FEW and word.usual is not None:
            options = [(one, self._tell(one)) for one in word.one_of]
            Pick(means, options, str(there), lambda one: self._said(name, one))
        else:
            self.fields[name] = self._line(word, _shown(there), _shown(ghost), means)

    def _line(self, word: Word, there: str, ghost: str, means: str) -> Field:
        hint = f"{means}; one on a line" if word.many else means
        options = [(one, self._tell(one)) for one in word.one_of]
        return Field(
            word.name,
            there,
            lambda event: self._said(word.name, _heard(word, event.value or "")),
            hint="" if hint == word.name else hint,
            options=options,
            keys="text",
            ghost=f"such as {ghost}" if ghost and not word.many else "",
            name=word.name,
            needed=word.usual is None,
            lines=3 if word.many else 1,
        )

    async def _said(self, name: str, what: Said) -> None:
        self.words[name] = what
        self._keep_address()
        await self._answer()

    def _below(self) -> None:
        with ui.element("div").classes("ask-said"):
            self.found = ui.html("", tag="ul", sanitize=False).classes("found")
            self.rows = ui.html("", tag="dl", sanitize=False).classes("lines")
            with ui.element("details").classes("more") as self.more:
                ui.html("By other printed rules", tag="summary", sanitize=False)
                self.also = ui.html("", tag="dl", sanitize=False).classes("lines")

    async def _answer(self) -> None:
        """Answers what is said now; an answer that comes after a newer question is let go."""
        self.number += 1
        mine, words = self.number, dict(self.words)
        heard = await run.io_bound(hear, self.question, words, self.who.shop, self.who.system)
        if heard is not None and mine == self.number:
            self._show(heard)

    def _show(self, heard: Heard) -> None:
        self.big.set_content(_big(heard, self._tell))
        self.found.set_content("".join(self._finding(one) for one in heard.rest))
        self.rows.set_content(parts.rows_html((self._tell(a), self._tell(b)) for a, b in heard.rows))
        self.also.set_content(parts.rows_html((self._tell(a), self._tell(b)) for a, b in heard.also))
        self.more.set_visibility(bool(heard.also))
        for name, line in self.fields.items():
            line.wrong(" ".join(self._says(one) for one in heard.at.get(name, ())))

    def _says(self, one: Finding) -> str:
        return self._tell(" ".join(text for text in (one.says, one.try_this) if text))

    def _finding(self, one: Finding) -> str:
        told = replace(one, says=self._tell(one.says), try_this=self._tell(one.try_this))
        return f'<li class="{parts.KIND[one.weight]}">{parts.finding_html(told)}</li>'

    async def _example(self) -> None:
        self._put(example_of(self.question, self.who.system))
        self._again()

    async def _clear(self) -> None:
        self._put({})
        self._again()

    def _put(self, words: Mapping[str, Said]) -> None:
        self.words = dict(words)

    def _again(self) -> None:
        """The page anew: choices and ticks are the browser's own, and are set as it is built."""
        ui.navigate.to(self._address())

    def _keep_address(self) -> None:
        ui.navigate.history.replace(self._address())

    def _address(self) -> str:
        return f"/ask/{self.question.name}{_query(self.question, self.words, self.who.system)}"


def _big(heard: Heard, tell: Callable[[str], str]) -> str:
    """The figure that is asked for, large; what is still wanted, or that there is none, in its place."""
    if heard.missing:
        return f'<p class="of">Say also</p><p class="fig">{escape(", ".join(heard.missing))}</p>'
    if heard.answer is None or not heard.answer.rows:
        return '<p class="of">No answer</p><p class="by">What was found is told beside the words.</p>'
    if heard.first is None:
        return f'<p class="of">{escape(tell(heard.answer.title))}</p><p class="by">One line for each system.</p>'
    name, says = heard.first
    figure, _, by = says.partition(": ")
    told = f'<p class="by">{escape(tell(by))}</p>' if by else ""
    return f'<p class="of">{escape(tell(name))}</p><p class="fig">{escape(_held(tell(figure)))}</p>{told}'


def _held(figure: str) -> str:
    """A figure that is not torn between a number and its fraction or unit where a line ends."""
    return re.sub(r"(?<=\d) (?=\d+/\d|in\b|mm\b|lb\b|oz\b|ft\b)", "\u00a0", figure)


def _heard(word: Word, text: str) -> Said:
    """What was typed in a line, as the word wants it."""
    text = text[:LONGEST]
    return tuple(one.strip() for one in re.split(r"[\n;]", text) if one.strip()) if word.many else text


def _shown(value: Said) -> str:
    return "\n".join(value) if isinstance(value, tuple) else "" if isinstance(value, bool) else value


def _from_address(question: Question, query: Mapping[str, str]) -> dict[str, Said]:
    """The words that an address holds."""
    told = {w.name: query[w.name][:LONGEST] for w in question.words if w.name in query}
    flags = {w.name: w.flag for w in question.words}
    words = {w.name: w for w in question.words}
    return {name: text == "yes" if flags[name] else _heard(words[name], text) for name, text in told.items()}


def _query(question: Question, words: Mapping[str, Said], system: System) -> str:
    """The words as an address holds them: those that are not as usual, and what a bare number in them means."""
    usual = {w.name: w.usual or "" for w in question.words}
    said = {n: "yes" if v is True else "; ".join(v) if isinstance(v, tuple) else v for n, v in words.items() if v}
    told = {name: text for name, text in said.items() if text != usual[name]}
    return f"?{urlencode({**told, UNITS: system.value})}" if told else ""
