// One value against another: a mark for each design, a line along the Pareto-optimal ones, a ring round what is chosen.

import type { Units } from "../data";
import { chooseUnit } from "../units";
import { type Data, type ResultValue, PASSES } from "./data";
import { add, drawMark, listTicks } from "./svg";

const LEFT = 52, RIGHT = 14, TOP = 14, BOTTOM = 44;
const REACH = 30; // pixels from a mark within which it is pointed at
const NAMED = 14; // marks of the front that get their number
const SIGN = [34, 13]; // pixels that a number takes
const ROOM = 0.06; // of the range, left free at each end

export interface Seen {
  shown: number[];
  front: number[];
  units: Units;
}

interface Axis {
  figure: ResultValue;
  low: number;
  high: number;
}

export class Scatter {
  private width = 0;
  private height = 0;
  private svg: SVGElement | null = null;
  private ring: SVGElement | null = null;
  private axes: [Axis, Axis] | null = null;
  private seen: Seen = { shown: [], front: [], units: "metric" };
  private order: number[] = []; // of what has a mark, from left to right
  private lit: number | null = null;

  constructor(private readonly data: Data, private readonly host: HTMLElement, private readonly first: () => ResultValue | undefined,
              private readonly second: () => ResultValue | undefined, private readonly choose: (place: number | null, pressed: boolean) => void) {
    new ResizeObserver(() => { if (Math.abs(host.clientWidth - this.width) > 1) this.draw(this.seen); }).observe(host);
  }

  draw(seen: Seen): void {
    const focused = this.svg !== null && document.activeElement === this.svg;
    this.seen = seen;
    this.width = Math.max(this.host.clientWidth, 240);
    this.height = Math.max(250, Math.min(360, 0.66 * this.width));
    this.host.replaceChildren();
    const figures = [this.first(), this.second()];
    this.order = seen.shown.filter((place) => figures.every((figure) => figure && figure.values[place] !== null));
    if (!figures[0] || !figures[1] || !this.order.length) {
      this.svg = this.axes = null;
      this.host.textContent = "No design shown has both values.";
      return;
    }
    this.axes = [this.frame(figures[0]), this.frame(figures[1])];
    this.order.sort((a, b) => figures[0]!.values[a]! - figures[0]!.values[b]!);
    this.svg = add(this.host, "svg", {
      class: "plot", viewBox: `0 0 ${this.width} ${this.height}`, role: "img", tabindex: "0",
      "aria-label": `${figures[0].title} against ${figures[1].title}, ${this.order.length} designs, `
        + `${seen.front.length} Pareto-optimal. Left and right arrow keys step through them.`,
    });
    this.drawFrame();
    this.drawMarks();
    this.ring = add(this.svg, "g", {});
    this.light(this.lit);
    this.listen();
    if (focused) (this.svg as unknown as HTMLElement).focus({ preventScroll: true });
  }

  light(place: number | null): void {
    this.lit = place;
    this.ring?.replaceChildren();
    if (place === null || !this.ring || !this.axes || !this.order.includes(place)) return;
    const [x, y] = this.locate(place);
    add(this.ring, "circle", { class: "ring", cx: x, cy: y, r: 10 });
    this.name(this.ring, x, y, `${this.data.numbers[place]}`, "halo cursor");
  }

  // Where the mark of a design is, in units of the drawing.
  locate(place: number): [number, number] {
    const [across, up] = this.axes!;
    return [this.x(across.figure.values[place]!), this.y(up.figure.values[place]!)];
  }

  private x(value: number): number {
    const { low, high } = this.axes![0];
    return LEFT + ((value - low) / (high - low)) * (this.width - LEFT - RIGHT);
  }

  private y(value: number): number {
    const { low, high } = this.axes![1];
    return this.height - BOTTOM - ((value - low) / (high - low)) * (this.height - TOP - BOTTOM);
  }

  private frame(figure: ResultValue): Axis {
    const values = this.order.map((place) => figure.values[place]!);
    if (figure.key === "least_margin") values.push(1);
    const low = values.reduce((a, b) => Math.min(a, b)), high = values.reduce((a, b) => Math.max(a, b));
    const room = high > low ? ROOM * (high - low) : 0.1 * Math.abs(high) || 1;
    return { figure, low: low - room, high: high + room };
  }

  private drawFrame(): void {
    const svg = this.svg!, right = this.width - RIGHT, bottom = this.height - BOTTOM;
    const system = this.seen.units === "imperial" ? "imperial" : "metric";
    const units = this.axes!.map(({ figure, low, high }) => chooseUnit(this.data, Math.max(Math.abs(low), Math.abs(high)), figure.dimension, system));
    const title = (place: number) => this.axes![place].figure.title + (units[place].name ? `, ${units[place].name}` : "");
    for (const tick of listTicks(this.axes![0].low / units[0].factor, this.axes![0].high / units[0].factor, Math.max(3, this.width / 90))) {
      const x = this.x(tick * units[0].factor);
      add(svg, "path", { class: "tick", d: `M${x.toFixed(1)},${TOP}V${bottom}` });
      add(svg, "text", { class: "mark", x, y: bottom + 15 }, String(tick));
    }
    for (const tick of listTicks(this.axes![1].low / units[1].factor, this.axes![1].high / units[1].factor, 6)) {
      const y = this.y(tick * units[1].factor);
      add(svg, "path", { class: "tick", d: `M${LEFT},${y.toFixed(1)}H${right}` });
      add(svg, "text", { class: "level", x: LEFT - 5, y: y + 4 }, String(tick));
    }
    add(svg, "rect", { class: "box", x: LEFT, y: TOP, width: right - LEFT, height: bottom - TOP });
    add(svg, "text", { class: "mark", x: (LEFT + right) / 2, y: bottom + 34 }, title(0));
    add(svg, "text", { class: "mark", transform: `translate(12 ${(TOP + bottom) / 2}) rotate(-90)` }, title(1));
    if (this.axes![1].figure.key === "least_margin") {
      const y = this.y(1);
      add(svg, "path", { class: "limit", d: `M${LEFT},${y.toFixed(1)}H${right}` });
      add(svg, "text", { class: "halo", x: right - 4, y: y - 4, "text-anchor": "end" }, "required");
    }
  }

  private drawMarks(): void {
    const svg = this.svg!, best = new Set(this.seen.front);
    for (const place of this.order) {
      if (!best.has(place)) drawMark(svg, this.data.kinds[place] === PASSES ? "passing" : "failing", ...this.locate(place));
    }
    const spots = this.seen.front.map((place) => this.locate(place));
    if (!spots.length) return;
    // No design that passes lies beyond the steps; a straight line would promise designs between the marks.
    const better = this.axes![1].figure.better, edge = better === "more" ? this.height - BOTTOM : TOP;
    const steps = spots.map(([x, y], place) => `${place ? `H${x.toFixed(1)}` : `M${x.toFixed(1)},${edge}`}V${y.toFixed(1)}`);
    add(svg, "path", { class: "front", d: `${steps.join("")}H${this.width - RIGHT}` });
    spots.forEach(([x, y]) => drawMark(svg, "best", x, y));
    let last = [-Infinity, 0]; // numbers that would overlap are not drawn: all are listed in words
    spots.slice(0, spots.length <= NAMED ? NAMED : 0).forEach(([x, y], place) => {
      if (Math.abs(x - last[0]) < SIGN[0] && Math.abs(y - last[1]) < SIGN[1]) return;
      this.name(svg, x, y, String(this.data.numbers[this.seen.front[place]]), "halo");
      last = [x, y];
    });
  }

  private name(parent: Element, x: number, y: number, text: string, kind: string): void {
    const turned = x > this.width - RIGHT - 40;
    add(parent, "text", { class: kind, x: x + (turned ? -11 : 11), y: y > TOP + 16 ? y - 8 : y + 18, "text-anchor": turned ? "end" : "start" }, text);
  }

  private find(event: MouseEvent): number | null {
    const box = this.svg!.getBoundingClientRect(), scale = this.width / box.width;
    const x = (event.clientX - box.left) * scale, y = (event.clientY - box.top) * scale;
    let near = REACH, found: number | null = null;
    for (const place of this.order) {
      const [a, b] = this.locate(place), far = Math.hypot(a - x, b - y);
      if (far < near) [near, found] = [far, place];
    }
    return found;
  }

  private listen(): void {
    const svg = this.svg as SVGSVGElement;
    svg.addEventListener("pointermove", (event) => { const place = this.find(event); if (place !== null && place !== this.lit) this.choose(place, false); });
    svg.addEventListener("click", (event) => { const place = this.find(event); if (place !== null) this.choose(place, true); });
    svg.addEventListener("keydown", (event) => {
      const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
      if (event.key === "Enter" && this.lit !== null) return this.choose(this.lit, true);
      if (!step || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      const now = this.lit === null ? -1 : this.order.indexOf(this.lit);
      const next = now < 0 ? (step > 0 ? 0 : this.order.length - 1) : Math.max(0, Math.min(this.order.length - 1, now + step));
      this.choose(this.order[next], false);
    });
  }
}
