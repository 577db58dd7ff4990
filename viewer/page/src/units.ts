// Quantities in words, by the table of units that the rest of the program uses.

import type { Scene, System, Unit, Units, Words } from "./data";

export type WithUnits = Pick<Scene, "units">;

export function showNumber(value: number, digits = 3): string {
  if (value === 0) return "0";
  const rounded = Number(value.toExponential(digits - 1));
  const places = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(rounded))));
  return value.toFixed(places);
}

export function chooseUnit(scene: WithUnits, value: number, dimension: string, system: System): Unit {
  return scene.units[dimension][system].filter((unit) => Math.abs(value) >= unit.least).at(-1)!;
}

function showIn(scene: WithUnits, value: number, dimension: string, system: System, digits: number): string {
  const unit = chooseUnit(scene, value, dimension, system);
  return `${showNumber(value / unit.factor, digits)} ${unit.name}`.trimEnd();
}

export function showQuantity(scene: WithUnits, value: number, dimension: string, units: Units, digits = 3): string {
  if (units !== "both") return showIn(scene, value, dimension, units, digits);
  const [metric, imperial] = (["metric", "imperial"] as System[]).map((each) => showIn(scene, value, dimension, each, digits));
  return metric === imperial ? metric : `${metric} (${imperial})`;
}

export function chooseWords(words: Words, units: Units): string {
  if (units !== "both" || words.metric === words.imperial) return words[units === "imperial" ? "imperial" : "metric"];
  const [first, second] = [words.metric.split("\n"), words.imperial.split("\n")];
  return first.map((line, place) => (line === second[place] ? line : `${line} (${tail(second[place])})`)).join("\n");
}

// The number and unit at the end of a line such as "left 414 N".
function tail(line: string): string {
  return line.split(" ").slice(-2).join(" ");
}
