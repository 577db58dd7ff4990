// The page of a sweep: a table, two plots and bars that follow each other.

import type { Units } from "../data";
import { watchPage } from "../switches";
import { fillBars } from "./bars";
import { type Figure, findFigure, nameDesign, nameFigure, readData, showFigure } from "./data";
import { Filters } from "./filters";
import { findFront } from "./front";
import { type Seen, Scatter } from "./scatter";
import { add, drawMark } from "./svg";
import { Table } from "./table";

const NAMED = 12; // designs of a front that are named beside it
const data = readData();
const element = <E extends HTMLElement>(id: string) => document.getElementById(id) as E;

class Page {
  private units = document.documentElement.dataset.units as Units;
  private measure = findFigure(data, data.measure);
  private moved = findFigure(data, "packed_kg")?.key ?? data.figures[0]?.key;
  private lit: number | null = null;
  private readonly weight = findFigure(data, "packed_kg");
  private readonly margin = findFigure(data, "least_margin");
  private readonly table = new Table(data, element("table"), (place) => this.choose(place, false));
  private readonly filters = new Filters(data, element<HTMLFormElement>("filters"), this.table.read(), () => this.refresh());
  private readonly plots = [
    new Scatter(data, element("plot-a"), () => this.weight, () => this.margin, (place, pressed) => this.choose(place, pressed)),
    new Scatter(data, element("plot-b"), () => this.weight, () => this.measure, (place, pressed) => this.choose(place, pressed)),
  ];

  constructor() {
    const others = data.figures.filter((figure) => figure !== this.weight && figure !== this.margin);
    this.fillSelect(element("measure"), others, this.measure, (figure) => { this.measure = figure; this.setUnits(this.units); });
    this.fillSelect(element("moved"), data.figures, findFigure(data, this.moved), (figure) => { this.moved = figure.key; this.fillEffects(); });
    this.fillKey();
    this.setUnits(this.units);
  }

  // For tests: where the mark of a design is, in pixels of the window.
  locate(plot: number, number: number): [number, number] {
    const [x, y] = this.plots[plot].locate(data.numbers.indexOf(number));
    const svg = document.querySelector(`#plot-${"ab"[plot]} svg`)!, box = svg.getBoundingClientRect();
    const scale = box.width / (svg as SVGSVGElement).viewBox.baseVal.width;
    return [box.left + x * scale, box.top + y * scale];
  }

  setUnits(units: Units): void {
    this.units = units;
    this.filters.setUnits(units);
    this.table.write(units, this.measure);
    this.fillEffects();
    this.refresh();
  }

  private refresh(): void {
    const met = this.filters.list();
    const fronts = [findFront(data, met, this.weight, this.margin), findFront(data, met, this.weight, this.measure)];
    const sets = fronts.map((front) => new Set(front)) as [Set<number>, Set<number>];
    const shown = this.filters.best ? met.filter((place) => sets.some((set) => set.has(place))) : met;
    this.table.show(new Set(shown), sets);
    this.plots.forEach((plot, side) => plot.draw({ shown, front: fronts[side], units: this.units } satisfies Seen));
    this.nameFront(element("front-a"), fronts[0], this.margin, met.length);
    this.nameFront(element("front-b"), fronts[1], this.measure, met.length);
    const held = shown.filter((place) => data.kinds[place] === 0).length;
    element("count").textContent = `${shown.length} of ${data.numbers.length} designs shown; ${held} of them hold.`;
    if (this.lit !== null && !shown.includes(this.lit)) this.choose(null, false);
  }

  private choose(place: number | null, pressed: boolean): void {
    if (place === this.lit && !pressed) return;
    this.lit = place;
    this.table.light(place, pressed);
    for (const plot of this.plots) plot.light(place);
    element("told").textContent = place === null ? "" : this.tell(place);
  }

  private tell(place: number): string {
    const cells = [...this.table.rows[place].cells], verdict = cells[data.choices.length + 1].textContent;
    const figures = [this.weight, this.margin, this.measure].filter((figure): figure is Figure => figure !== undefined);
    const found = figures.map((figure) => `${nameFigure(figure)} ${showFigure(data, figure, figure.values[place], this.units)}`);
    const why = ["gives way first: ", "not enough: ", ""][data.kinds[place]] + cells.at(-1)!.textContent!.replace(/\.$/, "");
    return `Design ${data.numbers[place]}, ${nameDesign(data, place)}: ${verdict}; ${found.join("; ")}; ${why}.`;
  }

  // The front in words, beside the plot that draws it.
  private nameFront(host: HTMLElement, front: number[], figure: Figure | undefined, met: number): void {
    host.replaceChildren();
    const words = document.createElement("p"), list = document.createElement("ul");
    words.className = "small";
    host.append(words);
    if (!figure || !this.weight) {
      words.textContent = "There is nothing to compare.";
    } else if (!figure.better) {
      words.textContent = `Of ${nameFigure(figure)} neither less nor more is better by itself, so that none is marked.`;
    } else if (!front.length) {
      words.textContent = `None of the ${met} designs holds and has both figures.`;
    } else {
      const one = front.length === 1;
      words.textContent = `Nothing beats ${one ? "this one" : `these ${front.length}`}: of the ${met} designs that the filters leave, no other that holds is `
        + `as light and as good in ${nameFigure(figure)}, and better in one (alike in ${data.digits} digits counts as the same):`;
      for (const place of front.slice(0, NAMED)) {
        const item = document.createElement("li");
        item.textContent = `${data.numbers[place]}: ${nameDesign(data, place)}; ${showFigure(data, this.weight, this.weight.values[place], this.units)}, `
          + showFigure(data, figure, figure.values[place], this.units);
        list.append(item);
      }
      if (front.length > NAMED) {
        const rest = document.createElement("li");
        rest.textContent = `and ${front.length - NAMED} more, marked in the table`;
        list.append(rest);
      }
      host.append(list);
    }
  }

  private fillSelect(select: HTMLSelectElement, figures: Figure[], first: Figure | undefined, chosen: (figure: Figure) => void): void {
    for (const [title, lay] of [["how one lies", true], ["weight, margin, forces and shape", false]] as const) {
      const group = document.createElement("optgroup");
      group.label = title;
      for (const figure of figures.filter((each) => each.lay === lay)) {
        group.append(new Option(nameFigure(figure), figure.key, false, figure === first));
      }
      if (group.children.length) select.append(group);
    }
    select.addEventListener("change", () => chosen(findFigure(data, select.value)!));
  }

  private fillEffects(): void {
    if (this.moved) fillBars(data, this.moved, this.units, element("bars"), element("how"));
  }

  private fillKey(): void {
    const marks = [["held", "holds"], ["failing", "does not hold"], ["best", "nothing beats it, with its number"]] as const;
    for (const [kind, words] of marks) {
      const span = document.createElement("span");
      drawMark(add(span, "svg", { class: "plot key-mark", viewBox: "0 0 20 20", "aria-hidden": "true" }), kind, 10, 10);
      span.append(` ${words}`);
      element("key").append(span);
    }
    element("key").append("Dashed: no design that holds lies beyond. Designs that were not solved have no mark.");
  }
}

declare global {
  interface Window {
    tautlaySweep?: Page;
  }
}

const page = (window.tautlaySweep = new Page());
watchPage((units) => page.setUnits(units as Units));
