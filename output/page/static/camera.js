// How near the pieces are seen, and from where: k pixels to a millimetre, the table's origin at (x, y) on the screen.

const NEAREST = 12; // pixels to a millimetre
const FARTHEST = 0.05;
const GLIDE = 180; // milliseconds

export class Camera {
  k = 0.5;
  x = 0;
  y = 0;
  /** Whether all the pieces are in view and are to stay so when the room changes. */
  whole = true;
  /** Whether she has moved it since it was last brought near something. */
  moved = false;
  #moved;
  #frame = 0;

  /** moved: called after every move */
  constructor(moved) {
    this.#moved = moved;
  }

  /** Sees so many pixels around so that the box [left, top, right, bottom] mm is as large as it can be. */
  fit([left, top, right, bottom], width, height, { glide = false, most = NEAREST, edge = 12 } = {}) {
    const w = Math.max(1, width - 2 * edge);
    const h = Math.max(1, height - 2 * edge);
    const k = clamp(Math.min(w / (right - left), h / (bottom - top)), FARTHEST, most);
    this.#go(k, (width - k * (left + right)) / 2, (height - k * (top + bottom)) / 2, glide);
  }

  /** Nearer by a factor, the place (x, y) on the screen standing still. */
  zoom(factor, x, y, glide = false) {
    const k = clamp(this.k * factor, FARTHEST, NEAREST);
    this.whole = false;
    this.moved = true;
    this.#go(k, x - (x - this.x) * (k / this.k), y - (y - this.y) * (k / this.k), glide);
  }

  /** So many pixels to a millimetre, the place (x, y) on the screen standing still. */
  scale(k, x, y) {
    this.zoom(k / this.k, x, y);
  }

  pan(dx, dy) {
    this.whole = false;
    this.moved = true;
    this.#go(this.k, this.x + dx, this.y + dy, false);
  }

  /** A place of the table on the screen. */
  screen(x, y) {
    return [this.x + this.k * x, this.y + this.k * y];
  }

  #go(k, x, y, glide) {
    cancelAnimationFrame(this.#frame);
    if (!glide || matchMedia("(prefers-reduced-motion: reduce)").matches) {
      Object.assign(this, { k, x, y });
      this.#moved();
      return;
    }
    const from = { k: this.k, x: this.x, y: this.y };
    const start = performance.now();
    const step = (now) => {
      const t = clamp((now - start) / GLIDE, 0, 1);
      const s = t * t * (3 - 2 * t);
      Object.assign(this, {
        k: from.k + (k - from.k) * s,
        x: from.x + (x - from.x) * s,
        y: from.y + (y - from.y) * s,
      });
      this.#moved();
      if (t < 1) this.#frame = requestAnimationFrame(step);
    };
    this.#frame = requestAnimationFrame(step);
  }
}

const clamp = (value, low, high) => Math.max(low, Math.min(high, value));

/** Lets a pointer drag and pinch, a wheel and the keys move the camera over an element. */
export function steer(element, camera) {
  const held = new Map();
  let far = 0;
  element.addEventListener("wheel", (event) => {
    event.preventDefault();
    const [x, y] = within(element, event);
    const turned = event.deltaMode === 1 ? event.deltaY * 16 : event.deltaY;
    if (event.shiftKey) camera.pan(-turned - event.deltaX, 0);
    else camera.zoom(Math.exp(-clamp(turned, -120, 120) * (event.ctrlKey ? 0.01 : 0.0025)), x, y);
  }, { passive: false });
  element.addEventListener("pointerdown", (event) => {
    if (event.button) return;
    held.set(event.pointerId, within(element, event));
    far = 0;
  });
  element.addEventListener("pointermove", (event) => {
    const was = held.get(event.pointerId);
    if (!was) return;
    const now = within(element, event);
    if (held.size === 2) {
      const other = [...held].find(([id]) => id !== event.pointerId)[1];
      camera.pan((now[0] - was[0]) / 2, (now[1] - was[1]) / 2);
      const grown = apart(now, other) / Math.max(1, apart(was, other));
      camera.zoom(grown, (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
      far = Infinity;
    } else if (held.size === 1) {
      far += Math.abs(now[0] - was[0]) + Math.abs(now[1] - was[1]);
      if (far > 6) {
        if (!element.hasPointerCapture(event.pointerId)) element.setPointerCapture(event.pointerId);
        camera.pan(now[0] - was[0], now[1] - was[1]);
      }
    }
    held.set(event.pointerId, now);
  });
  for (const over of ["pointerup", "pointercancel", "lostpointercapture"]) {
    element.addEventListener(over, (event) => held.delete(event.pointerId));
  }
  // what ends a drag is no press
  element.addEventListener("click", (event) => {
    if (far > 6) event.stopPropagation();
    far = 0;
  }, { capture: true });
  element.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const by = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] }[event.key];
    const factor = { "+": 1.25, "=": 1.25, "-": 0.8 }[event.key];
    if (by) camera.pan(...by);
    else if (factor) camera.zoom(factor, element.clientWidth / 2, element.clientHeight / 2, true);
    else return;
    event.preventDefault();
  });
}

const apart = (one, other) => Math.hypot(one[0] - other[0], one[1] - other[1]);

function within(element, event) {
  const box = element.getBoundingClientRect();
  return [event.clientX - box.left, event.clientY - box.top];
}
