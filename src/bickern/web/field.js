// One thing to fill in: its name, the line or list to fill, a hint, and what was found wrong with it.
// What is typed is held here: `value` is only what it begins with, so that an answer that comes late takes no key back.
// Where it `keeps`, this tab holds what was typed until the server says that it has it: a net or a server that goes
// meanwhile takes nothing with it.
const PAUSE = 300, PATIENCE = 2000; // ms after a key until it is asked for, and between two askings
const FIRST = 99; // of what was typed one after the other: among the first is what the server heard last

export default {
  template: `
    <div class="field" :class="{ wrong: says, many: lines > 1 }">
      <label :for="own">{{ label }}</label>
      <textarea v-if="lines > 1" :id="own" :rows="lines" v-model="held" v-bind="told" spellcheck="false"></textarea>
      <select v-else-if="options && options.length" :id="own" v-model="held" v-bind="told">
        <option v-for="one in offered" :value="one[0]">{{ one[1] }}</option>
      </select>
      <input v-else :id="own" :type="kind" v-model="held" v-bind="told" autocomplete="off" autocapitalize="off"
             spellcheck="false" :inputmode="keys || undefined" :placeholder="ghost || undefined" />
      <p v-if="hint" class="hint" :id="own + '-hint'">{{ hint }}</p>
      <p v-if="says" class="says" :id="own + '-says'">{{ says }}</p>
    </div>`,
  props: {
    value: String,
    label: String,
    hint: String,
    says: String,
    options: Array,
    kind: { type: String, default: "text" },
    keys: String,
    ghost: String,
    name: String,
    needed: Boolean,
    lines: { type: Number, default: 1 },
    keeps: Boolean,
  },
  emits: ["update:value", "sure"],
  data() {
    return { held: this.value ?? "", told_by_us: false, own: "f" + Math.random().toString(36).slice(2) };
  },
  computed: {
    told() {
      const about = [this.hint && this.own + "-hint", this.says && this.own + "-says"].filter(Boolean).join(" ");
      return {
        name: this.name || undefined,
        "aria-describedby": about || undefined,
        "aria-invalid": this.says ? "true" : undefined,
        "aria-required": this.needed ? "true" : undefined,
      };
    },
    offered() {
      const known = this.options.some((one) => one[0] === this.held);
      return known ? this.options : [[this.held, this.held || "choose"], ...this.options];
    },
  },
  watch: {
    held(now, before) {
      if (this.told_by_us) return;
      if (this.keeps) this.keep([...(this.unsure ?? [before]).slice(0, FIRST), now]);
      this.$emit("update:value", now);
    },
  },
  mounted() {
    if (this.keeps) this.goOn();
  },
  beforeUnmount() {
    clearTimeout(this.timer);
  },
  methods: {
    // What was typed before a reload and never arrived, where nobody changed it since.
    goOn() {
      try {
        const kept = JSON.parse(sessionStorage.getItem(this.kept()));
        if (kept?.includes(this.value) && kept.at(-1) !== this.value) this.held = kept.at(-1);
        else this.forget();
      } catch {
        this.forget();
      }
    },
    kept() {
      return `bickern ${location.pathname} ${this.name}`;
    },
    keep(typed) {
      this.unsure = typed;
      this.late = false;
      try {
        sessionStorage.setItem(this.kept(), JSON.stringify(typed));
      } catch {
        // a browser that keeps nothing: each key still goes out as it is typed
      }
      this.ask(PAUSE);
    },
    ask(after) {
      clearTimeout(this.timer);
      this.timer = setTimeout(() => {
        if (window.socket?.connected) {
          if (this.late) this.$emit("update:value", this.held);
          this.$emit("sure");
          this.late = true;
        }
        this.ask(PATIENCE);
      }, after);
    },
    heard(value) {
      if (value === this.held) this.forget();
    },
    forget() {
      clearTimeout(this.timer);
      this.unsure = null;
      try {
        sessionStorage.removeItem(this.kept());
      } catch {
        // nothing was kept
      }
    },
    show(now) {
      if (this.keeps) this.forget();
      if (now === this.held) return;
      this.told_by_us = true;
      this.held = now ?? "";
      this.$nextTick(() => (this.told_by_us = false));
    },
    put(words) {
      const at = document.getElementById(this.own);
      if (at.setRangeText) at.setRangeText(words, at.selectionStart, at.selectionEnd, "end");
      this.held = at.value;
      at.focus();
    },
    go() {
      document.getElementById(this.own).focus();
    },
  },
};
