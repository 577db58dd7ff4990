// What the page holds of a sweep: one list for each choice and figure, in the order in which the table was written.

import type { System, Unit, Units } from "../data";
import { showQuantity } from "../units";

export interface Choice {
  name: string;
  labels: string[]; // in their order
  picks: number[]; // for each design the place of its label
}

export interface Figure {
  key: string;
  title: string;
  dimension: string;
  better: "less" | "more" | "";
  lay: boolean; // a measure of how one lies
  values: (number | null)[]; // SI
}

export type Change = [label: string, mean: number, least: number | null, most: number | null, size: number];

export interface Influence {
  choice: string;
  against: string;
  effects: Change[];
}

export interface Effects {
  how: string;
  influences: Influence[];
}

export interface Data {
  designed: string; // what a choice is called that leaves the design as it is
  units: Record<string, Record<System, Unit[]>>;
  digits: number; // in which figures are compared
  numbers: number[];
  kinds: number[]; // 0 holds, 1 fails, 2 open
  choices: Choice[];
  figures: Figure[];
  measure: string;
  effects: Record<string, Effects>;
}

export const HOLDS = 0, FAILS = 1;

export function readData(): Data {
  return JSON.parse(document.getElementById("scene-data")!.textContent!) as Data;
}

export function findFigure(data: Data, key: string): Figure | undefined {
  return data.figures.find((figure) => figure.key === key);
}

export function nameFigure(figure: Figure): string {
  return { packed_kg: "weight", least_margin: "least margin" }[figure.key] ?? figure.title;
}

export function nameDesign(data: Data, place: number): string {
  const labels = data.choices.map((choice) => choice.labels[choice.picks[place]]);
  return labels.filter((label) => label !== data.designed).join(", ") || data.designed;
}

// A factor or margin is rounded down, so that 0.999 is not 1.
export function showFigure(data: Data, figure: Figure, value: number | null, units: Units): string {
  if (value === null) return "-";
  if (figure.dimension === "ratio") return (Math.floor(value * 100 * (1 + 1e-12)) / 100).toFixed(2);
  return showQuantity(data, value, figure.dimension, units);
}

export function showChange(data: Data, figure: Figure, value: number | null, units: Units): string {
  if (value === null) return "?";
  const sign = value > 0 ? "+" : "";
  if (figure.dimension !== "ratio") return sign + showQuantity(data, value, figure.dimension, units);
  const rounded = value.toFixed(3);
  return Number(rounded) === 0 ? "+0.000" : sign + rounded;
}
