// A slider that holds its own value: what comes late from elsewhere never moves it under somebody's finger.
const PAUSE = 40; // ms between two tellings; the last is always told

export default {
  template: `
    <div class="slide">
      <label :for="own">{{ label }}</label>
      <input type="range" :id="own" :min="low" :max="high" :step="step" v-model.number="held" :aria-valuetext="said" />
    </div>`,
  props: { label: String, low: Number, high: Number, step: Number, value: Number, unit: String },
  emits: ["slid"],
  data() {
    return { held: this.value, own: "s" + Math.random().toString(36).slice(2) };
  },
  computed: {
    said() {
      return `${this.held}${this.unit}`;
    },
  },
  watch: {
    held(now) {
      if (this.quiet) return (this.quiet = false);
      if (this.timer) return (this.late = true);
      this.$emit("slid", now);
      this.timer = setTimeout(this.again, PAUSE);
    },
  },
  beforeUnmount() {
    clearTimeout(this.timer);
  },
  methods: {
    again() {
      this.timer = null;
      if (!this.late) return;
      this.late = false;
      this.$emit("slid", this.held);
      this.timer = setTimeout(this.again, PAUSE);
    },
    put(value) {
      if (this.held === value) return;
      this.late = false;
      this.quiet = true;
      this.held = value;
    },
  },
};
