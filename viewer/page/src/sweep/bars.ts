// Effect of each choice: a table with a bar for every change, all to one scale, and a stroke for its spread.

import type { Units } from "../data";
import { type Data, findValue, showChange } from "./data";
import { add } from "./svg";

const WIDTH = 200, HEIGHT = 20;

export function fillBars(data: Data, key: string, units: Units, host: HTMLElement, how: HTMLElement): void {
  const figure = findValue(data, key)!, { influences, how: words } = data.effects[key];
  how.textContent = words;
  host.replaceChildren();
  if (!influences.length) return;
  const most = Math.max(...influences.flatMap(({ effects }) => effects.flatMap(([, ...ends]) => ends.slice(0, 3).map((end) => Math.abs(end ?? 0))))) || 1;
  const table = document.createElement("table"), head = table.createTHead().insertRow();
  table.className = "bars";
  table.createCaption().textContent = `Changes of ${figure.title}${figure.better ? `; ${figure.better} is better` : ""}. The largest effect stands first.`;
  const spread = influences.some(({ effects }) => effects.some(([, , least, , size]) => size > 1 || least === null));
  const columns = spread ? ["change", "min", "max", "n"] : ["change"]; // without a spread one design is behind each
  for (const [name, kind] of [["chosen", ""], ...columns.map((column) => [column, "num"]), ["less or more", ""]]) {
    const cell = document.createElement("th");
    cell.scope = "col";
    cell.className = kind;
    cell.textContent = name;
    head.append(cell);
  }
  for (const { choice, against, effects } of influences) {
    const body = table.createTBody(), group = document.createElement("th");
    group.scope = "rowgroup";
    group.className = "group";
    group.colSpan = columns.length + 2;
    group.textContent = `${choice}, instead of ${against}`;
    body.insertRow().append(group);
    for (const [label, mean, least, highest, size] of effects) {
      const row = body.insertRow(), title = document.createElement("th");
      title.scope = "row";
      title.textContent = label;
      row.append(title);
      const texts = [...[mean, least, highest].map((value) => showChange(data, figure, value, units)), String(size)];
      for (const text of texts.slice(0, columns.length)) {
        const cell = row.insertCell();
        cell.className = "num";
        cell.textContent = text;
      }
      const cell = row.insertCell();
      cell.className = "bar";
      drawBar(cell, mean / most, (least ?? mean) / most, (highest ?? mean) / most);
    }
  }
  host.append(table);
}

function drawBar(host: HTMLElement, mean: number, least: number, most: number): void {
  const svg = add(host, "svg", { class: "plot", viewBox: `0 0 ${WIDTH} ${HEIGHT}`, preserveAspectRatio: "none", "aria-hidden": "true" });
  const x = (share: number) => WIDTH / 2 + share * (WIDTH / 2 - 4);
  add(svg, "path", { class: "tick", d: `M${WIDTH / 2},0V${HEIGHT}` });
  add(svg, "rect", { class: mean < 0 ? "change less" : "change", x: Math.min(x(0), x(mean)), y: 5, width: Math.abs(x(mean) - x(0)), height: HEIGHT - 10 });
  if (most > least) add(svg, "path", { class: "spread", d: `M${x(least).toFixed(1)},${HEIGHT / 2}H${x(most).toFixed(1)}` });
}
