// Which designs are shown: by what was chosen, by weight and reserve factor, by whether they pass, by words.

import type { Units } from "../data";
import { showNumber } from "../units";
import { type Data, type ResultValue, findValue, PASSES } from "./data";

const MOST = 60; // labels of a choice that are listed

interface Limit {
  figure: ResultValue;
  input: HTMLInputElement;
  unit: HTMLElement;
  value: number | null; // SI
}

export class Filters {
  best = false; // only Pareto-optimal ones
  private readonly picks = new Map<number, number>(); // of a choice the place of its label
  private readonly limits: Limit[] = [];
  private passing = false;
  private words: string[] = [];
  private units: Units = "metric";

  constructor(private readonly data: Data, private readonly form: HTMLFormElement, private readonly texts: string[],
              private readonly changed: () => void) {
    this.data.choices.forEach((choice, place) => { if (choice.labels.length <= MOST) this.addChoice(place); });
    this.addLimit("packed_kg", "at most");
    this.addLimit("least_margin", "at least");
    this.addWords();
    this.addTick("only designs that pass", (on) => { this.passing = on; });
    this.addTick("only Pareto-optimal", (on) => { this.best = on; });
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = "Show all";
    button.addEventListener("click", () => this.reset());
    form.append(button);
    form.addEventListener("submit", (event) => event.preventDefault());
  }

  setUnits(units: Units): void {
    this.units = units;
    for (const limit of this.limits) {
      const unit = this.choose(limit.figure);
      limit.unit.textContent = unit.name;
      if (limit.value !== null) limit.input.value = String(Number(showNumber(limit.value / unit.factor, 5)));
    }
  }

  list(): number[] {
    return this.data.numbers.map((_, place) => place).filter((place) => this.meets(place));
  }

  private meets(place: number): boolean {
    if (this.passing && this.data.kinds[place] !== PASSES) return false;
    for (const [choice, pick] of this.picks) if (this.data.choices[choice].picks[place] !== pick) return false;
    for (const { figure, value } of this.limits) {
      const found = figure.values[place];
      if (value !== null && (found === null || (figure.better === "less" ? found > value : found < value))) return false;
    }
    return this.words.every((word) => this.texts[place].includes(word));
  }

  // The unit of a limit does not change with its size: one that is typed must stay what it was.
  private choose(figure: ResultValue): { name: string; factor: number } {
    return this.data.units[figure.dimension][this.units === "imperial" ? "imperial" : "metric"][0];
  }

  private label(words: string, ...inside: HTMLElement[]): HTMLLabelElement {
    const label = document.createElement("label");
    label.append(words, ...inside);
    this.form.append(label);
    return label;
  }

  private addChoice(place: number): void {
    const select = document.createElement("select");
    select.add(new Option("all", ""));
    this.data.choices[place].labels.forEach((label, each) => select.add(new Option(label, String(each))));
    select.addEventListener("change", () => {
      if (select.value === "") this.picks.delete(place);
      else this.picks.set(place, Number(select.value));
      this.changed();
    });
    this.label(this.data.choices[place].name, select);
  }

  private addLimit(key: string, side: string): void {
    const figure = findValue(this.data, key);
    if (!figure) return;
    const input = document.createElement("input"), unit = document.createElement("span"), pair = document.createElement("span");
    input.type = "number";
    input.step = "any";
    pair.className = "with-unit";
    pair.append(input, unit);
    const limit: Limit = { figure, input, unit, value: null };
    input.addEventListener("input", () => {
      limit.value = input.value === "" ? null : input.valueAsNumber * this.choose(figure).factor;
      this.changed();
    });
    this.limits.push(limit);
    this.label(`${figure.title} ${side}`, pair);
  }

  private addWords(): void {
    const input = document.createElement("input");
    input.type = "text";
    input.addEventListener("input", () => {
      this.words = input.value.toLowerCase().split(/\s+/).filter(Boolean);
      this.changed();
    });
    this.label("words in the row", input);
  }

  private addTick(words: string, set: (on: boolean) => void): void {
    const input = document.createElement("input"), label = this.label("", input);
    input.type = "checkbox";
    label.append(words);
    label.className = "tick";
    input.addEventListener("change", () => { set(input.checked); this.changed(); });
  }

  private reset(): void {
    this.form.reset();
    this.picks.clear();
    for (const limit of this.limits) limit.value = null;
    this.passing = this.best = false;
    this.words = [];
    this.changed();
  }
}
