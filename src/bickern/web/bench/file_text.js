// The job file as text. What is typed goes out whole, with the count of what was last shown here, so that words that
// cross one another on the way are put together and not over one another.
import * as CM from "nicegui-codemirror";

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

export default {
  template: `<div class="file"></div>`,
  props: { begun: String, label: String },
  emits: ["typed", "undo", "redo"],
  mounted() {
    this.shown = 0;
    this.quiet = false;
    const ours = (name) => ({ run: () => (this.$emit(name), true), preventDefault: true });
    this.editor = new CM.EditorView({
      doc: this.begun,
      parent: this.$el,
      extensions: [
        CM.lineNumbers(), CM.highlightSpecialChars(), CM.drawSelection(), CM.bracketMatching(), CM.EditorView.lineWrapping,
        CM.indentUnit.of("  "), marksField, remarked,
        CM.keymap.of([
          { key: "Mod-z", ...ours("undo") }, { key: "Mod-y", ...ours("redo") }, { key: "Mod-Shift-z", ...ours("redo") },
          ...CM.defaultKeymap,
        ]),
        CM.EditorView.contentAttributes.of({ "aria-label": this.label, spellcheck: "false" }),
        CM.EditorView.updateListener.of((update) => {
          if (update.docChanged && !this.quiet) this.$emit("typed", [this.editor.state.doc.toString(), this.shown]);
        }),
      ],
    });
  },
  beforeUnmount() {
    this.editor.destroy();
  },
  methods: {
    show(text, shown) {
      const old = this.editor.state.doc.toString();
      this.shown = shown;
      let from = 0, back = 0;
      const least = Math.min(old.length, text.length);
      while (from < least && old[from] === text[from]) from++;
      while (back < least - from && old[old.length - 1 - back] === text[text.length - 1 - back]) back++;
      this.quiet = true;
      this.editor.dispatch({ changes: { from, to: old.length - back, insert: text.slice(from, text.length - back) } });
      this.quiet = false;
    },
    mark(lines) {
      const doc = this.editor.state.doc;
      const there = lines.filter(([line]) => line <= doc.lines);
      const marks = there.map(([line, kind, says]) =>
        CM.Decoration.line({ class: kind, attributes: { title: says } }).range(doc.line(line).from));
      this.editor.dispatch({ effects: marksEffect.of(CM.Decoration.set(marks)) });
    },
    go(line) {
      const at = this.editor.state.doc.line(Math.min(line, this.editor.state.doc.lines)).from;
      this.editor.dispatch({ selection: { anchor: at }, effects: CM.EditorView.scrollIntoView(at, { y: "center" }) });
      this.editor.focus();
    },
  },
};
