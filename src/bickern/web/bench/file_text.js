// The job file as text. What is typed goes out whole with the number of the state that it began from, one message at a
// time; what comes back, or comes from elsewhere, is put in around what was typed since. No letter is taken back. A message
// that the net may have lost goes out once more when it is back; only the answer to the last one counts.
import * as CM from "nicegui-codemirror";

// The older way of input: with the newer one a letter that crosses a change from elsewhere leaves the cursor before it.
CM.EditorView.EDIT_CONTEXT = false;

const marksEffect = CM.StateEffect.define();
const marksField = CM.StateField.define({
  create: () => CM.Decoration.none,
  update(set, change) {
    set = set.map(change.changes);
    for (const effect of change.effects) if (effect.is(marksEffect)) set = effect.value;
    return set;
  },
  provide: (field) => CM.EditorView.decorations.from(field),
});
const remarks = new CM.MatchDecorator({ regexp: /(?:^|\s)#.*$/gm, decoration: CM.Decoration.mark({ class: "remark" }) });
const remarked = CM.ViewPlugin.fromClass(
  class {
    constructor(view) {
      this.decorations = remarks.createDeco(view);
    }
    update(update) {
      this.decorations = remarks.updateDeco(update, this.decorations);
    }
  },
  { decorations: (plugin) => plugin.decorations },
);

const fromAfar = CM.Annotation.define();

export default {
  template: `<div class="file"></div>`,
  props: { begun: String, number: Number, name: String, label: String },
  emits: ["typed", "undo", "redo"],
  mounted() {
    this.base = this.number;
    this.sent = null; // the text that the server has not answered yet
    this.unsent = null; // what was typed since, as changes of that text
    this.earlier = []; // what went out before it, and was not answered either
    this.out = null; // the message that it went out with
    this.turn = 0; // the number of that message
    const kept = this.kept();
    const ours = (name) => ({ run: () => (this.$emit(name), true), preventDefault: true });
    this.editor = new CM.EditorView({
      doc: kept ? kept.text : this.begun,
      parent: this.$el,
      extensions: [
        CM.lineNumbers(), CM.highlightSpecialChars(), CM.drawSelection(), CM.bracketMatching(), CM.EditorView.lineWrapping,
        CM.indentUnit.of("  "), marksField, remarked,
        CM.keymap.of([
          { key: "Mod-z", ...ours("undo") }, { key: "Mod-y", ...ours("redo") }, { key: "Mod-Shift-z", ...ours("redo") },
          ...CM.defaultKeymap,
        ]),
        CM.EditorView.contentAttributes.of({ "aria-label": this.label, spellcheck: "false", tabindex: "0" }),
        CM.EditorView.updateListener.of((update) => this.changed(update)),
      ],
    });
    if (kept) this.begin(kept);
    this.onceConnected(() => {
      this.socket = window.socket;
      this.socket.on("connect", this.onceMore);
      if (kept) this.onceMore();
    });
  },
  beforeUnmount() {
    this.socket?.off("connect", this.onceMore);
    this.editor.destroy();
  },
  methods: {
    onceConnected(does) {
      if (window.socket?.connected) does();
      else setTimeout(() => this.onceConnected(does), 50);
    },
    now() {
      return this.editor.state.doc.toString();
    },
    // A letter that stands on the screen already, but not yet in the text: first of all it is taken in.
    takeIn() {
      this.editor.observer?.forceFlush?.();
    },
    changed(update) {
      if (!update.docChanged || update.transactions.some((one) => one.annotation(fromAfar))) return;
      this.unsent = this.unsent ? this.unsent.compose(update.changes) : update.changes;
      this.keep();
      this.send();
    },
    send() {
      if (this.sent !== null || !this.unsent) return;
      this.sent = this.now();
      this.unsent = null;
      this.keep();
      this.out = { text: this.sent, base: this.base, earlier: [], turn: ++this.turn };
      this.$emit("typed", this.out);
    },
    onceMore() {
      if (this.sent !== null) this.$emit("typed", { ...this.out, again: true });
    },
    // The answer to what was sent: the newest text, and its number.
    heard(turn, number, text) {
      this.takeIn();
      if (turn !== this.turn || this.sent === null) return;
      const from = this.sent;
      this.sent = null;
      this.earlier = [];
      this.base = number;
      this.put(from, text);
      this.keep();
      this.send();
    },
    // The newest text, changed elsewhere. While an answer is awaited, that will bring the same and more.
    show(number, text) {
      this.takeIn();
      if (number <= this.base || this.sent !== null) return;
      this.base = number;
      this.put(this.now(), text);
    },
    put(old, text) {
      if (old === text) return;
      let from = 0, back = 0;
      const least = Math.min(old.length, text.length);
      while (from < least && old[from] === text[from]) from++;
      while (back < least - from && old[old.length - 1 - back] === text[text.length - 1 - back]) back++;
      const spot = { from, to: old.length - back, insert: text.slice(from, text.length - back) };
      let changes = CM.ChangeSet.of([spot], old.length);
      if (this.unsent) {
        const over = changes.map(this.unsent, true);
        this.unsent = this.unsent.map(changes);
        changes = over;
      }
      this.editor.dispatch({ changes, annotations: fromAfar.of(true) });
    },
    // What has not been answered is kept in this tab: a reload, or a server that ended, loses none of it.
    keep() {
      try {
        if (this.sent === null && !this.unsent) sessionStorage.removeItem(this.name);
        else {
          const kept = { base: this.base, earlier: this.earlier, sent: this.sent, text: this.now() };
          sessionStorage.setItem(this.name, JSON.stringify(kept));
        }
      } catch {
        // a browser that keeps nothing: each letter still goes out as it is typed
      }
    },
    kept() {
      try {
        const kept = JSON.parse(sessionStorage.getItem(this.name));
        if (kept && kept.text !== this.begun) return kept;
        sessionStorage.removeItem(this.name);
        return null;
      } catch {
        return null;
      }
    },
    begin(kept) {
      this.base = kept.base;
      this.sent = kept.text;
      this.earlier = kept.sent === null ? kept.earlier : [...kept.earlier, kept.sent];
      this.keep();
      this.out = { text: this.sent, base: this.base, earlier: this.earlier, turn: ++this.turn };
    },
    mark(lines) {
      this.takeIn();
      const doc = this.editor.state.doc;
      const there = lines.filter(([line]) => line <= doc.lines);
      const marks = there.map(([line, kind, says]) =>
        CM.Decoration.line({ class: kind, attributes: { title: says } }).range(doc.line(line).from));
      this.editor.dispatch({ effects: marksEffect.of(CM.Decoration.set(marks)) });
    },
    go(line) {
      this.takeIn();
      const at = this.editor.state.doc.line(Math.min(line, this.editor.state.doc.lines)).from;
      this.editor.dispatch({ selection: { anchor: at }, effects: CM.EditorView.scrollIntoView(at, { y: "center" }) });
      this.editor.focus();
    },
  },
};
