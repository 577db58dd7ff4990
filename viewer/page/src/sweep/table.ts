// The table of designs: sorted by its headings, gone through with the arrow keys, its numbers in the chosen units.

import type { Units } from "../data";
import { type Data, type ResultValue, findValue, showValue } from "./data";

type Cost = (place: number) => number | null;

export class Table {
  readonly rows: HTMLTableRowElement[];
  private readonly body: HTMLTableSectionElement;
  private readonly heads: HTMLTableCellElement[];
  private readonly frontColumn: number;
  private sort: [string, number] | null = null; // column and sign
  private fronts: [Set<number>, Set<number>] = [new Set(), new Set()];
  private order: HTMLTableRowElement[];
  private measure: ResultValue | undefined;

  constructor(private readonly data: Data, table: HTMLTableElement, private readonly choose: (place: number) => void) {
    this.body = table.tBodies[0];
    this.rows = [...this.body.rows];
    this.order = [...this.rows];
    this.heads = [...table.tHead!.rows[0].cells];
    this.frontColumn = this.heads.findIndex((head) => head.dataset.sort === "front");
    this.rows.forEach((row, place) => this.listen(row, place));
    this.heads.filter((head) => head.dataset.sort).forEach((head) => this.addButton(head));
    this.rove();
  }

  // What is written in a row, for a search by words.
  read(): string[] {
    return this.rows.map((row) => row.textContent!.toLowerCase());
  }

  write(units: Units, measure: ResultValue | undefined): void {
    this.measure = measure;
    this.heads.forEach((head, column) => {
      const figure = this.find(head.dataset.sort!);
      if (!figure) return;
      if (head.dataset.sort === "measure") head.querySelector("button")!.textContent = head.dataset.title = figure.title;
      this.rows.forEach((row, place) => { row.cells[column].textContent = showValue(this.data, figure, figure.values[place], units); });
    });
    if (this.sort?.[0] === "measure") this.arrange();
  }

  show(shown: Set<number>, fronts: [Set<number>, Set<number>]): void {
    this.fronts = fronts;
    this.rows.forEach((row, place) => {
      row.hidden = !shown.has(place);
      const named = ["A", "B"].filter((_, side) => fronts[side].has(place)).join(", ");
      row.cells[this.frontColumn].textContent = named && `\u25C6 ${named}`;
    });
    if (this.sort?.[0] === "front") this.arrange();
    this.rove();
  }

  light(place: number | null, pressed: boolean): void {
    this.body.querySelector(".lit")?.classList.remove("lit");
    if (place === null) return;
    this.rows[place].classList.add("lit");
    if (pressed) {
      this.rows[place].scrollIntoView({ block: "nearest" });
      this.focus(this.rows[place]);
    }
  }

  private find(sort: string | undefined): ResultValue | undefined {
    return sort === "measure" ? this.measure : sort?.startsWith("value ") ? findValue(this.data, sort.slice(6)) : undefined;
  }

  private cost(sort: string): Cost {
    const figure = this.find(sort);
    if (figure) return (place) => figure.values[place];
    if (sort.startsWith("choice ")) return (place) => this.data.choices[Number(sort.slice(7))].picks[place];
    if (sort === "front") return (place) => 3 - 2 * Number(this.fronts[0].has(place)) - Number(this.fronts[1].has(place));
    return (place) => (sort === "kind" ? 0 : this.data.numbers[place]);
  }

  private addButton(head: HTMLTableCellElement): void {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.dataset.title = head.textContent!; // paper repeats titles, but no buttons, on every sheet
    head.replaceChildren(button);
    button.addEventListener("click", () => {
      const key = head.dataset.sort!, best = this.find(key)?.better === "more" ? -1 : 1;
      this.sort = [key, this.sort?.[0] === key ? -this.sort[1] : best];
      for (const each of this.heads) each.removeAttribute("aria-sort");
      head.setAttribute("aria-sort", this.sort[1] > 0 ? "ascending" : "descending");
      this.arrange();
    });
  }

  // Whatever it is sorted by, designs that pass come first, then those that fail, then those not solved.
  private arrange(): void {
    const [key, sign] = this.sort!, cost = this.cost(key), { kinds, numbers } = this.data;
    const turned = key === "kind" ? sign : 1;
    const order = this.rows.map((_, place) => place).sort((a, b) => {
      const [one, other] = [cost(a), cost(b)];
      if (kinds[a] !== kinds[b]) return turned * (kinds[a] - kinds[b]);
      if (one === null || other === null) return Number(one === null) - Number(other === null) || numbers[a] - numbers[b];
      return sign * (one - other) || numbers[a] - numbers[b];
    });
    this.order = order.map((place) => this.rows[place]);
    this.body.append(...this.order);
    this.rove();
  }

  // One row at a time can be reached with the tab key, the others from there with the arrow keys.
  private rove(): void {
    const shown = this.order.filter((row) => !row.hidden);
    const now = shown.find((row) => row.tabIndex === 0) ?? shown[0];
    for (const row of this.rows) row.tabIndex = row === now ? 0 : -1;
  }

  private focus(row: HTMLTableRowElement): void {
    for (const each of this.rows) each.tabIndex = -1;
    row.tabIndex = 0;
    row.focus();
  }

  private listen(row: HTMLTableRowElement, place: number): void {
    row.addEventListener("pointerenter", () => this.choose(place));
    row.addEventListener("click", () => this.choose(place));
    row.addEventListener("focus", () => this.choose(place));
    row.addEventListener("keydown", (event) => {
      const shown = this.order.filter((each) => !each.hidden), now = shown.indexOf(row), last = shown.length - 1;
      const next = { ArrowDown: now + 1, ArrowUp: now - 1, PageDown: now + 10, PageUp: now - 10, Home: 0, End: last }[event.key];
      if (next === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      this.focus(shown[Math.max(0, Math.min(last, next))]);
    });
  }
}
