// The page of a sweep: a table, two plots and bars that follow each other.

import type { Units } from "../data";
import { watchPage } from "../switches";
import { fillBars } from "./bars";
import { type ResultValue, findValue, nameDesign, PASSES, readData, showValue } from "./data";
import { Filters } from "./filters";
import { findFront } from "./front";
import { type Seen, Scatter } from "./scatter";
import { add, drawMark } from "./svg";
import { Table } from "./table";

const NAMED = 12; // designs of a front that are listed beside it
const data = readData();
const element = <E extends HTMLElement>(id: string) => document.getElementById(id) as E;

class Page {
  private units = document.documentElement.dataset.units as Units;
  private measure = findValue(data, data.measure);
  private affected = findValue(data, "packed_kg")?.key ?? data.figures[0]?.key;
  private lit: number | null = null;
  private readonly weight = findValue(data, "packed_kg");
  private readonly reserve = findValue(data, "least_margin");
  private readonly table = new Table(data, element("table"), (place) => this.choose(place, false));
  private readonly filters = new Filters(data, element<HTMLFormElement>("filters"), this.table.read(), () => this.refresh());
  private readonly plots = [
    new Scatter(data, element("plot-a"), () => this.weight, () => this.reserve, (place, pressed) => this.choose(place, pressed)),
    new Scatter(data, element("plot-b"), () => this.weight, () => this.measure, (place, pressed) => this.choose(place, pressed)),
  ];

  constructor() {
    const others = data.figures.filter((figure) => figure !== this.weight && figure !== this.reserve);
    this.fillSelect(element("measure"), others, this.measure, (figure) => { this.measure = figure; this.setUnits(this.units); });
    this.fillSelect(element("effect-on"), data.figures, findValue(data, this.affected), (figure) => { this.affected = figure.key; this.fillEffects(); });
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
    const fronts = [findFront(data, met, this.weight, this.reserve), findFront(data, met, this.weight, this.measure)];
    const sets = fronts.map((front) => new Set(front)) as [Set<number>, Set<number>];
    const shown = this.filters.best ? met.filter((place) => sets.some((set) => set.has(place))) : met;
    this.table.show(new Set(shown), sets);
    this.plots.forEach((plot, side) => plot.draw({ shown, front: fronts[side], units: this.units } satisfies Seen));
    this.nameFront(element("front-a"), fronts[0], this.reserve, met.length);
    this.nameFront(element("front-b"), fronts[1], this.measure, met.length);
    const passing = shown.filter((place) => data.kinds[place] === PASSES).length;
    element("count").textContent = `${shown.length} of ${data.numbers.length} designs shown; ${passing} pass.`;
    if (this.lit !== null && !shown.includes(this.lit)) this.choose(null, false);
  }

  private choose(place: number | null, pressed: boolean): void {
    if (place === this.lit && !pressed) return;
    this.lit = place;
    this.table.light(place, pressed);
    for (const plot of this.plots) plot.light(place);
    element("selected").textContent = place === null ? "" : this.describe(place);
  }

  private describe(place: number): string {
    const cells = [...this.table.rows[place].cells], verdict = cells[data.choices.length + 1].textContent;
    const figures = [this.weight, this.reserve, this.measure].filter((figure): figure is ResultValue => figure !== undefined);
    const found = figures.map((figure) => `${figure.title} ${showValue(data, figure, figure.values[place], this.units)}`);
    const why = ["governing check: ", "fails: ", ""][data.kinds[place]] + cells.at(-1)!.textContent!.replace(/\.$/, "");
    return `Design ${data.numbers[place]}, ${nameDesign(data, place)}: ${verdict}; ${found.join("; ")}; ${why}.`;
  }

  // The front in words, beside the plot that draws it.
  private nameFront(host: HTMLElement, front: number[], figure: ResultValue | undefined, met: number): void {
    host.replaceChildren();
    const words = document.createElement("p"), list = document.createElement("ul");
    words.className = "small";
    host.append(words);
    if (!figure || !this.weight) {
      words.textContent = "There is nothing to compare.";
    } else if (!figure.better) {
      words.textContent = `${figure.title} has no better direction: no design is marked.`;
    } else if (!front.length) {
      words.textContent = `None of the ${met} designs passes and has both values.`;
    } else {
      words.textContent = `${front.length} of the ${met} designs shown ${front.length === 1 ? "is" : "are"} Pareto-optimal: no other that passes is at least `
        + `as good in ${this.weight.title} and ${figure.title}, and better in one. Values equal to ${data.digits} digits tie.`;
      for (const place of front.slice(0, NAMED)) {
        const item = document.createElement("li");
        item.textContent = `${data.numbers[place]}: ${nameDesign(data, place)}; ${showValue(data, this.weight, this.weight.values[place], this.units)}, `
          + showValue(data, figure, figure.values[place], this.units);
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

  private fillSelect(select: HTMLSelectElement, figures: ResultValue[], first: ResultValue | undefined, chosen: (figure: ResultValue) => void): void {
    for (const [title, lay] of [["lay and comfort", true], ["weight, strength, forces and shape", false]] as const) {
      const group = document.createElement("optgroup");
      group.label = title;
      for (const figure of figures.filter((each) => each.lay === lay)) {
        group.append(new Option(figure.title, figure.key, false, figure === first));
      }
      if (group.children.length) select.append(group);
    }
    select.addEventListener("change", () => chosen(findValue(data, select.value)!));
  }

  private fillEffects(): void {
    if (this.affected) fillBars(data, this.affected, this.units, element("bars"), element("how"));
  }

  private fillKey(): void {
    const marks = [["passing", "passes"], ["failing", "fails"], ["best", "Pareto-optimal, with its number"]] as const;
    for (const [kind, words] of marks) {
      const span = document.createElement("span");
      drawMark(add(span, "svg", { class: "plot key-mark", viewBox: "0 0 20 20", "aria-hidden": "true" }), kind, 10, 10);
      span.append(` ${words}`);
      element("key").append(span);
    }
    element("key").append("Dashed: no design that passes lies beyond. Designs that were not solved have no mark.");
  }
}

declare global {
  interface Window {
    tautlaySweep?: Page;
  }
}

const page = (window.tautlaySweep = new Page());
watchPage((units) => page.setUnits(units as Units));
