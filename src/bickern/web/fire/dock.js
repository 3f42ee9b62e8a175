// What stands under the thumb at the fire: the seconds left of a heat, and the buttons that go on or back.
// The clock runs here in the browser alone: nothing is sent while it runs, and it goes on when the net does not.
export default {
  template: `
    <section class="dock" :class="phase && 'heat-' + phase" aria-label="At the fire" @click="let_go">
      <div v-if="phase" class="heat-bar">
        <p class="left"><span class="seconds">{{ left }}</span><span class="unit">s</span></p>
        <p class="says"><span>{{ words }}</span><span class="whose" v-if="running !== name">{{ running }}</span></p>
        <div class="left-bar" role="progressbar" aria-label="Seconds left of this heat" :aria-valuemax="total"
             aria-valuemin="0" :aria-valuenow="left" :aria-valuetext="left + ' s, ' + words">
          <i ref="fill"></i><b v-if="low < total" :style="{ left: (100 * (total - low)) / total + '%' }"></b>
        </div>
      </div>
      <div class="keys" role="group" aria-label="This heat">
        <button type="button" class="plain back" :disabled="first" @click="$emit('go', -1)">Back</button>
        <button type="button" class="main fire" v-if="hot || phase" @click="press">{{ runs ? "Stop" : "Out of the fire" }}</button>
        <button type="button" class="done" :class="hot || phase ? 'plain' : 'main'" v-if="tick" @click="$emit('tick')">{{ tick }}</button>
        <button type="button" class="plain next" :disabled="last" @click="$emit('go', 1)">Next</button>
      </div>
      <p class="unseen" role="status">{{ words }}</p>
      <p v-if="dark" class="quiet dark">This browser lets the screen go dark by itself: set it to stay on.</p>
    </section>`,
  props: {
    hot: Boolean,
    name: String,
    of: String,
    gives: Number,
    least: Number,
    carry: Number,
    tick: String,
    first: Boolean,
    last: Boolean,
  },
  emits: ["go", "tick", "pulled"],
  data() {
    return { phase: "", left: 0, total: 1, low: 1, running: "", dark: false };
  },
  computed: {
    runs() {
      return this.phase !== "" && this.phase !== "over";
    },
    words() {
      return {
        carried: "to the anvil", work: "work", look: "look at the colour", over: "back in the fire", "": "",
      }[this.phase];
    },
  },
  watch: {
    of() {
      if (this.phase === "over") this.stop();
    },
  },
  mounted() {
    this.still = window.matchMedia("(prefers-reduced-motion: reduce)");
    window.addEventListener("keydown", this.key);
    document.addEventListener("visibilitychange", this.awake);
    this.awake();
  },
  unmounted() {
    window.removeEventListener("keydown", this.key);
    document.removeEventListener("visibilitychange", this.awake);
    cancelAnimationFrame(this.frame);
    this.lock?.release?.().catch(() => {});
  },
  methods: {
    press() {
      if (this.runs) this.stop();
      else if (this.hot) this.start();
      else this.stop();
    },
    start() {
      this.total = Math.max(1, this.gives);
      this.low = Math.min(this.total, this.least || this.total);
      this.running = this.name;
      this.wait = this.carry;
      this.began = performance.now();
      this.phase = this.wait > 0 ? "carried" : "work";
      this.left = Math.ceil(this.total);
      this.$emit("pulled");
      this.run();
    },
    stop() {
      cancelAnimationFrame(this.frame);
      this.phase = "";
    },
    run() {
      cancelAnimationFrame(this.frame);
      const seconds = (performance.now() - this.began) / 1000 - this.wait;
      const left = Math.max(0, Math.min(this.total, this.total - seconds));
      const before = this.left;
      this.left = Math.ceil(left);
      this.phase = seconds < 0 ? "carried" : seconds < this.low ? "work" : left > 0 ? "look" : "over";
      const shown = this.still.matches ? this.left : left;
      if (!this.still.matches || before !== this.left || left === 0) this.fill(shown / this.total);
      if (left > 0) this.frame = requestAnimationFrame(this.run);
      else navigator.vibrate?.([200, 120, 200]);
    },
    fill(share) {
      if (this.$refs.fill) this.$refs.fill.style.transform = `scaleX(${share})`;
    },
    key(event) {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      const at = event.target.closest?.("input, textarea, select, [contenteditable], dialog");
      if (at) return;
      const pressed = event.target.closest?.("button, a, summary");
      if (event.key === "ArrowRight") this.$emit("go", 1);
      else if (event.key === "ArrowLeft") this.$emit("go", -1);
      else if (event.key === " " && !pressed) this.$emit("go", 1);
      else if (event.key === "Enter" && !pressed && (this.hot || this.phase)) this.press();
      else return;
      event.preventDefault();
    },
    let_go(event) {
      // pressed by a finger: the next press of the space bar turns the card, and does not press this once more
      if (event.detail > 0) document.activeElement?.blur();
    },
    async awake() {
      if (document.visibilityState !== "visible") return;
      try {
        this.lock = await navigator.wakeLock.request("screen");
        this.dark = false;
      } catch {
        this.dark = true;
      }
    },
  },
};
