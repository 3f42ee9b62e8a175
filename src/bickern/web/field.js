// One thing to fill in: its name, the line or list to fill, a hint, and what was found wrong with it.
// What is typed is held here: `value` is only what it begins with, so that an answer that comes late takes no key back.
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
  },
  emits: ["update:value"],
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
    held(now) {
      if (!this.told_by_us) this.$emit("update:value", now);
    },
  },
  methods: {
    show(now) {
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
