// Words over the scene: the force in each part, numbered hot spots, the peak of the field, a bar of a round length.

import type { Hammock } from "./hammock";
import type { FieldInfo, Point, Scene, Units } from "./data";
import type { Stage } from "./stage";
import { chooseWords, showNumber } from "./units";

const SVG = "http://www.w3.org/2000/svg";
const GAP = 6; // pixels between labels
const INCH = 0.0254; // m, NIST SP 811
const REACHES = [26, 42, 60], APART = 25; // pixels from a hot spot to its number, and between two of either
const WAYS = [60, 120, 0, 180, 300, 240, 90, 270].map((degrees) => (degrees * Math.PI) / 180);

interface Placed {
  element: HTMLElement;
  at: Point;
}

export class Marks {
  private labels: Placed[] = [];
  private spots: Placed[] = [];
  private peak: Placed | null = null;
  private labelled = true;
  private readonly leaders = document.createElementNS(SVG, "svg");

  constructor(private readonly scene: Scene, private readonly stage: Stage, private readonly layer: HTMLElement,
              private readonly choose: (triangle: number) => void) {
    this.leaders.id = "leaders";
    this.leaders.setAttribute("aria-hidden", "true");
    stage.onDraw(() => this.place());
  }

  fill(hammock: Hammock, field: FieldInfo, units: Units): void {
    this.layer.replaceChildren(this.leaders);
    this.labels = hammock.shape.labels.map((label) => this.add("div", "label", chooseWords(label, units), label.at));
    this.peak = null;
    const values = hammock.shape.fields[field.values];
    if (values) {
      const most = values.reduce((best, value, place) => (value > values[best] ? place : best), 0);
      this.peak = this.add("div", "peak-mark", "", hammock.cloth.middle(most).toArray());
    }
    this.spots = hammock.shape.spots.map((spot) => {
      const placed = this.add("button", "spot", String(spot.number), spot.at);
      placed.element.setAttribute("type", "button");
      placed.element.setAttribute("aria-label", `Hot spot ${spot.number}: ${chooseWords(spot, units)}`);
      placed.element.title = chooseWords(spot, units);
      placed.element.addEventListener("click", () => this.choose(spot.triangle));
      return placed;
    });
    this.place();
  }

  showLabels(shown: boolean): void {
    this.labelled = shown;
    this.place();
  }

  showSpots(shown: boolean): void {
    for (const { element } of this.spots) element.hidden = !shown;
    this.place();
  }

  scaleBar(bar: HTMLElement, units: Units): void {
    const one = units === "imperial" ? 12 * INCH : 0.1;
    const pixels = this.stage.camera.zoom; // per metre
    const steps = [1, 2, 5, 10, 20, 50];
    const step = steps.find((each) => each * one * pixels > 60) ?? 50;
    bar.style.width = `${step * one * pixels}px`;
    bar.firstElementChild!.textContent = units === "imperial" ? `${step} ft` : `${showNumber(step * one, 1)} m`;
  }

  private add(tag: string, kind: string, text: string, at: Point): Placed {
    const element = document.createElement(tag);
    element.className = kind;
    element.textContent = text;
    this.layer.append(element);
    return { element, at };
  }

  // Labels stand in a row above and a row below, each with a line to its part; one without room is not drawn.
  private place(): void {
    const { clientWidth: width, clientHeight: height } = this.stage.canvas;
    this.leaders.replaceChildren();
    this.placeSpots();
    if (this.peak) {
      const [x, y] = this.stage.project(this.peak.at);
      this.peak.element.style.transform = `translate(${x}px, ${y}px) translate(-50%, -100%)`;
    }
    const seen = this.labels.map((label) => ({ ...label, spot: this.stage.project(label.at), size: label.element.getBoundingClientRect() }));
    const rows: [typeof seen, number][] = [[[], 4], [[], height]];
    seen.forEach((label, place) => rows[place < this.scene.shapes[0].labels.length - 3 ? 0 : 1][0].push(label));
    for (const [row, edge] of rows) {
      row.sort((a, b) => a.spot[0] - b.spot[0]);
      let free = 4;
      row.forEach((label, place) => {
        const rest = row.slice(place + 1).reduce((sum, other) => sum + other.size.width + GAP, 0);
        const left = Math.max(free, Math.min(label.spot[0] - label.size.width / 2, width - rest - label.size.width - 4));
        const fits = this.labelled && left + label.size.width <= width - 2;
        label.element.classList.toggle("away", !fits);
        if (!fits) return;
        free = left + label.size.width + GAP;
        const top = edge === height ? height - label.size.height - 26 : edge;
        label.element.style.transform = `translate(${left}px, ${top}px)`;
        this.lead(left + label.size.width / 2, edge === height ? top : top + label.size.height, label.spot, 2.5, "");
      });
    }
  }

  // A dot at each hot spot and its number beside it, so that none covers another, as in the pictures.
  private placeSpots(): void {
    const shown = this.spots.filter(({ element }) => !element.hidden);
    const dots = shown.map(({ at }) => this.stage.project(at));
    const taken = [...dots];
    shown.forEach(({ element }, place) => {
      const [x, y] = dots[place];
      const tries = REACHES.flatMap((far) => WAYS.map((way): [number, number] => [x + far * Math.cos(way), y - far * Math.sin(way)]));
      const gaps = tries.map((at) => Math.min(...taken.map((other) => Math.hypot(at[0] - other[0], at[1] - other[1]))));
      const free = gaps.findIndex((gap) => gap >= APART);
      const at = tries[free < 0 ? gaps.indexOf(Math.max(...gaps)) : free];
      taken.push(at);
      element.style.transform = `translate(${at[0]}px, ${at[1]}px) translate(-50%, -50%)`;
      this.lead(at[0], at[1], [x, y], 4, "spot");
    });
  }

  private lead(x: number, y: number, [toX, toY]: [number, number], radius: number, kind: string): void {
    const line = document.createElementNS(SVG, "line");
    Object.entries({ x1: x, y1: y, x2: toX, y2: toY }).forEach(([key, value]) => line.setAttribute(key, value.toFixed(1)));
    const dot = document.createElementNS(SVG, "circle");
    Object.entries({ cx: toX, cy: toY, r: radius }).forEach(([key, value]) => dot.setAttribute(key, value.toFixed(1)));
    if (kind) [line, dot].forEach((each, place) => each.setAttribute("class", `${kind}-${["line", "dot"][place]}`));
    this.leaders.append(line, dot);
  }
}
