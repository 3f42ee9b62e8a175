// A place for words or a drawing that change at each key: they are put in here alone, and nothing else is laid out anew.
export default {
  template: `<component :is="tag"></component>`,
  props: { begun: String, tag: { type: String, default: "div" } },
  mounted() {
    this.$el.innerHTML = this.begun || "";
  },
  methods: {
    put(inside, named) {
      this.$el.innerHTML = inside;
      for (const [name, said] of Object.entries(named || {})) this.$el.setAttribute(name, said);
    },
    wide(says) {
      this.$el.style.setProperty("--wide", says);
    },
    mark(name, yes) {
      this.$el.classList.toggle(name, yes);
    },
  },
};
