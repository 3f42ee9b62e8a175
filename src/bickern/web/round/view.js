// The set in the round: parts as meshes, turned about with a finger, a mouse or the keys; drawn only when something moves.
import { GLTFLoader, OrbitControls, THREE } from "nicegui-scene";

const STEP = Math.PI / 18; // of an arrow key
const NEARER = 1.15; // of + and -
const SMOOTH = Math.cos((32 * Math.PI) / 180); // faces nearer than this to one another are one round surface
const FOLD = 32; // degrees from which on an edge is drawn
const OPEN = 20; // degrees that the eye sees: as from some steps away
const ROOM = 1.05; // left round the set

export default {
  template: `
    <div class="round-view" role="application" tabindex="0" :aria-label="label" :aria-describedby="own"
         :data-drawn="drawn" @keydown="key">
      <canvas v-show="!lost" aria-hidden="true"></canvas>
      <p v-if="lost" class="lost">This browser shows nothing in the round here. The same in lines and words is below.</p>
      <p class="unseen" :id="own">Arrow keys turn it, plus and minus bring it nearer and farther, Home looks from aside again.</p>
    </div>`,
  props: { label: String, things: Array, moved: Object, hidden: Array, marked: Array, look: Array, named: String },
  emits: ["lost"],
  data() {
    return { lost: false, drawn: 0, own: "v" + Math.random().toString(36).slice(2) };
  },
  mounted() {
    // what three.js holds is kept out of the reach of Vue, which would wrap it all
    const own = (this.inside = { shapes: new Map(), shown: [], looked: null, due: false, gone: false });
    const canvas = this.$el.querySelector("canvas");
    try {
      own.renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true });
    } catch {
      this.lost = true;
      this.$emit("lost");
      return;
    }
    canvas.addEventListener("webglcontextlost", (event) => event.preventDefault());
    canvas.addEventListener("webglcontextrestored", () => this.draw());
    own.renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    own.scene = new THREE.Scene();
    own.camera = new THREE.PerspectiveCamera(OPEN, 1, 0.01, 100);
    own.camera.up.set(0, 0, 1);
    own.camera.position.set(2, -2, 1);
    const sun = new THREE.DirectionalLight(0xffffff, 2.3);
    sun.position.set(-0.7, 0.9, 1);
    own.camera.add(sun, sun.target);
    own.scene.add(own.camera, new THREE.HemisphereLight(0xffffff, 0x9a9a9a, 1.35));
    own.controls = new OrbitControls(own.camera, canvas);
    own.controls.enableDamping = false;
    own.controls.addEventListener("change", () => this.draw());
    // a wheel scrolls the page unless the view was taken in hand
    own.controls.enableZoom = false;
    this.$el.addEventListener("focusin", () => (own.controls.enableZoom = true));
    this.$el.addEventListener("focusout", () => (own.controls.enableZoom = false));
    canvas.addEventListener("pointerdown", () => this.$el.focus({ preventScroll: true }));
    own.loader = new GLTFLoader();
    own.sizes = new ResizeObserver(() => this.sized());
    own.sizes.observe(this.$el);
    own.night = window.matchMedia("(prefers-color-scheme: dark)");
    own.dress = () => this.dress();
    own.night.addEventListener("change", own.dress);
    this.sized();
    this.take();
  },
  beforeUnmount() {
    const own = this.inside;
    own.gone = true;
    own.sizes?.disconnect();
    own.night?.removeEventListener("change", own.dress);
    own.controls?.dispose();
    for (const one of own.shapes.values()) one.then((shape) => shape && this.drop(shape));
    for (const one of own.shown) this.undress(one);
    own.renderer?.dispose();
    own.renderer?.forceContextLoss();
  },
  watch: {
    things(now, before) {
      if (JSON.stringify(now) !== JSON.stringify(before)) this.take();
    },
    moved() {
      this.lie();
    },
    hidden() {
      this.lie();
    },
    marked() {
      this.dress();
    },
    look() {
      this.turn();
    },
  },
  methods: {
    // ---- what is there

    async take() {
      const own = this.inside;
      if (!own.renderer) return;
      const wanted = this.things;
      const shapes = await Promise.all(wanted.map((thing) => this.shape(thing)));
      if (own.gone || JSON.stringify(wanted) !== JSON.stringify(this.things)) return;
      for (const one of own.shown) this.undress(one);
      own.shown = wanted.map((thing, k) => (shapes[k] ? this.body(thing, shapes[k]) : null)).filter(Boolean);
      this.forget(new Set(wanted.map((thing) => thing.key)));
      this.dress();
      this.lie();
      if (own.looked === null) this.turn();
      else this.follow();
    },
    shape(thing) {
      const { shapes, loader } = this.inside;
      if (!shapes.has(thing.key)) shapes.set(thing.key, loader.loadAsync(thing.url).then(shaped, () => null));
      return shapes.get(thing.key);
    },
    body(thing, shape) {
      const Kind = thing.ground ? THREE.MeshBasicMaterial : THREE.MeshLambertMaterial;
      const behind = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };
      const faces = new THREE.Mesh(shape.faces, new Kind(behind));
      const edges = new THREE.LineSegments(shape.edges, new THREE.LineBasicMaterial());
      const group = new THREE.Group();
      group.matrixAutoUpdate = false;
      group.add(faces, edges);
      this.inside.scene.add(group);
      return { thing, group, faces, edges };
    },
    undress(one) {
      one.group.removeFromParent();
      one.faces.material.dispose();
      one.edges.material.dispose();
    },
    drop(shape) {
      shape.faces.dispose();
      shape.edges.dispose();
    },
    forget(wanted) {
      const { shapes } = this.inside;
      for (const [key, one] of shapes) {
        if (wanted.has(key)) continue;
        shapes.delete(key);
        one.then((shape) => shape && this.drop(shape));
      }
    },

    // ---- how it lies and looks

    lie() {
      if (!this.inside.renderer) return;
      for (const { thing, group } of this.inside.shown) {
        group.matrix.set(...(this.moved?.[thing.id] ?? thing.lies));
        group.matrixWorldNeedsUpdate = true;
        group.visible = !(this.hidden ?? []).includes(thing.id);
      }
      if (this.moved && Object.keys(this.moved).length) this.stepBack();
      this.draw();
    },
    dress() {
      if (!this.inside.renderer) return;
      const named = getComputedStyle(this.$el);
      const colour = (name) => new THREE.Color(named.getPropertyValue(name).trim() || "#777");
      const [ink, field, ember] = ["--ink", "--field", "--ember"].map(colour);
      const iron = field.clone().lerp(ink, 0.5);
      const wall = mixed(field, ink, 0.05);
      for (const { thing, faces, edges } of this.inside.shown) {
        const marked = (this.marked ?? []).includes(thing.id);
        const lit = marked ? ember : thing.ground ? mixed(field, ink, 0.12) : ink;
        faces.material.color.copy(thing.ground ? wall : marked ? iron.clone().lerp(ember, 0.75) : iron);
        edges.material.color.copy(lit);
      }
      this.draw();
    },

    // ---- where the eye is

    turn() {
      const own = this.inside;
      if (!own.renderer || !own.shown.length || !this.look?.length) return;
      if (own.looked === this.look[0]) return;
      own.looked = this.look[0];
      this.stand(new THREE.Vector3(...this.look[1]), new THREE.Vector3(...this.look[2]));
    },
    stand(eye, upward) {
      const { camera, controls, shown } = this.inside;
      const across = upward.clone().cross(eye).normalize();
      const box = { across: [1e9, -1e9], upward: [1e9, -1e9], eye: [1e9, -1e9] };
      for (const { thing, group, faces } of shown) {
        if (thing.ground) continue;
        group.updateMatrixWorld(true);
        const { min, max } = faces.geometry.boundingBox;
        for (let k = 0; k < 8; k++) {
          const at = new THREE.Vector3(k & 1 ? max.x : min.x, k & 2 ? max.y : min.y, k & 4 ? max.z : min.z);
          at.applyMatrix4(group.matrix);
          for (const [name, way] of [["across", across], ["upward", upward], ["eye", eye]]) {
            const far = at.dot(way);
            box[name] = [Math.min(box[name][0], far), Math.max(box[name][1], far)];
          }
        }
      }
      const half = (name) => (box[name][1] - box[name][0]) / 2;
      const middle = new THREE.Vector3();
      for (const [name, way] of [["across", across], ["upward", upward], ["eye", eye]])
        middle.addScaledVector(way, (box[name][0] + box[name][1]) / 2);
      const slope = Math.tan((OPEN * Math.PI) / 360);
      const far = (ROOM * Math.max(half("upward"), half("across") / camera.aspect)) / slope + half("eye");
      // straight down has no side: the eye keeps a hair toward the front, so that the front is below
      const off = Math.abs(eye.z) > 0.999 ? eye.clone().addScaledVector(upward, -0.002) : eye;
      controls.target.copy(middle);
      camera.position.copy(middle).addScaledVector(off.normalize(), far);
      camera.near = far / 50;
      camera.far = far * 20;
      camera.updateProjectionMatrix();
      controls.update();
      this.draw();
    },
    inSight(one) {
      const { camera } = this.inside;
      const { min, max } = one.faces.geometry.boundingBox;
      const at = new THREE.Vector3();
      camera.updateMatrixWorld();
      for (let k = 0; k < 8; k++) {
        at.set(k & 1 ? max.x : min.x, k & 2 ? max.y : min.y, k & 4 ? max.z : min.z).applyMatrix4(one.group.matrix);
        at.project(camera);
        if (Math.max(Math.abs(at.x), Math.abs(at.y)) > 1) return false;
      }
      return true;
    },
    // What is swung out of sight is followed: the eye steps back until all of it is seen, and stays there.
    stepBack() {
      const { camera, controls, shown } = this.inside;
      const swung = shown.filter(({ thing, group }) => !thing.ground && group.visible && this.moved[thing.id]);
      for (let k = 0; k < 40 && !swung.every((one) => this.inSight(one)); k++)
        camera.position.sub(controls.target).multiplyScalar(1.05).add(controls.target);
      controls.update();
    },
    // What lies elsewhere now, since it is held otherwise, is looked at the same way from where all of it is seen.
    follow() {
      const { camera, controls, shown } = this.inside;
      if (shown.filter(({ thing }) => !thing.ground).every((one) => this.inSight(one))) return;
      const eye = camera.position.clone().sub(controls.target).normalize();
      this.stand(eye, new THREE.Vector3(0, 1, 0).applyQuaternion(camera.quaternion));
    },
    key(event) {
      const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
      const own = this.inside;
      if (!own.renderer || event.ctrlKey || event.metaKey || event.altKey) return;
      const off = own.camera.position.clone().sub(own.controls.target);
      const round = new THREE.Spherical().setFromVector3(new THREE.Vector3(off.x, off.z, -off.y)); // y up, as it counts
      if (ways[event.key]) {
        round.theta += ways[event.key][0] * STEP;
        round.phi = Math.min(Math.PI - 0.002, Math.max(0.002, round.phi + ways[event.key][1] * STEP));
      } else if (["+", "="].includes(event.key)) round.radius /= NEARER;
      else if (["-", "_"].includes(event.key)) round.radius *= NEARER;
      else if (event.key === "Home") {
        own.looked = null;
        event.preventDefault();
        return this.turn();
      } else return;
      event.preventDefault();
      const at = new THREE.Vector3().setFromSpherical(round);
      own.camera.position.set(at.x, -at.z, at.y).add(own.controls.target);
      own.controls.update();
      this.draw();
    },

    // ---- drawing

    sized() {
      const { renderer, camera } = this.inside;
      const { clientWidth: wide, clientHeight: high } = this.$el;
      if (!renderer || !wide || !high) return;
      renderer.setSize(wide, high, false);
      camera.aspect = wide / high;
      camera.updateProjectionMatrix();
      this.draw();
    },
    draw() {
      const own = this.inside;
      if (!own.renderer || own.due || own.gone) return;
      own.due = true;
      requestAnimationFrame(() => {
        own.due = false;
        if (own.gone) return;
        own.renderer.render(own.scene, own.camera);
        if (own.shown.length) this.drawn += 1;
      });
    },
  },
};

// Two colours mixed as the eye counts, not as light adds up.
function mixed(one, other, share) {
  return one.clone().convertLinearToSRGB().lerp(other.clone().convertLinearToSRGB(), share).convertSRGBToLinear();
}

// Faces with the light of a round surface where they lie nearly in one plane, and the edges where they do not.
function shaped(file) {
  let first;
  file.scene.traverse((one) => (first ??= one.isMesh ? one : undefined));
  if (!first) return null;
  const points = first.geometry.getAttribute("position");
  const index = first.geometry.index.array;
  const normals = [];
  const round = Array.from({ length: points.count }, () => []);
  const [a, b, c] = [new THREE.Vector3(), new THREE.Vector3(), new THREE.Vector3()];
  for (let k = 0; k < index.length; k += 3) {
    a.fromBufferAttribute(points, index[k]);
    b.fromBufferAttribute(points, index[k + 1]).sub(a);
    c.fromBufferAttribute(points, index[k + 2]).sub(a);
    const wide = b.clone().cross(c);
    normals.push({ wide, way: wide.clone().normalize() });
    for (let j = 0; j < 3; j++) round[index[k + j]].push(k / 3);
  }
  const places = new Float32Array(index.length * 3);
  const light = new Float32Array(index.length * 3);
  const sum = new THREE.Vector3();
  for (let k = 0; k < index.length; k++) {
    const own = normals[(k / 3) | 0];
    sum.set(0, 0, 0);
    for (const face of round[index[k]]) if (normals[face].way.dot(own.way) >= SMOOTH) sum.add(normals[face].wide);
    if (sum.lengthSq() === 0) sum.copy(own.way);
    sum.normalize().toArray(light, 3 * k);
    a.fromBufferAttribute(points, index[k]).toArray(places, 3 * k);
  }
  const faces = new THREE.BufferGeometry();
  faces.setAttribute("position", new THREE.BufferAttribute(places, 3));
  faces.setAttribute("normal", new THREE.BufferAttribute(light, 3));
  faces.computeBoundingBox();
  const edges = new THREE.EdgesGeometry(first.geometry, FOLD);
  first.geometry.dispose();
  first.material.dispose();
  return { faces, edges };
}
