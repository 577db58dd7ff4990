// The data of a sweep: one list for each choice and result value, in the order in which the table was written.

import type { System, Unit, Units } from "../data";
import { showQuantity } from "../units";

export interface Choice {
  name: string;
  labels: string[]; // in their order
  picks: number[]; // for each design the place of its label
}

export interface ResultValue {
  key: string;
  title: string;
  dimension: string;
  better: "less" | "more" | "";
  lay: boolean; // a measure of the lay
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
  designed: string; // label of a choice that leaves the design unchanged
  units: Record<string, Record<System, Unit[]>>;
  digits: number; // in which values are compared
  numbers: number[];
  kinds: number[]; // 0 passes, 1 fails, 2 open
  choices: Choice[];
  figures: ResultValue[];
  measure: string;
  effects: Record<string, Effects>;
}

export const PASSES = 0;

export function readData(): Data {
  return JSON.parse(document.getElementById("scene-data")!.textContent!) as Data;
}

export function findValue(data: Data, key: string): ResultValue | undefined {
  return data.figures.find((figure) => figure.key === key);
}

export function nameDesign(data: Data, place: number): string {
  const labels = data.choices.map((choice) => choice.labels[choice.picks[place]]);
  return labels.filter((label) => label !== data.designed).join(", ") || data.designed;
}

// A factor is rounded down, so that 0.999 is not 1.
export function showValue(data: Data, figure: ResultValue, value: number | null, units: Units): string {
  if (value === null) return "-";
  if (figure.dimension === "ratio") return (Math.floor(value * 100 * (1 + 1e-12)) / 100).toFixed(2);
  return showQuantity(data, value, figure.dimension, units);
}

export function showChange(data: Data, figure: ResultValue, value: number | null, units: Units): string {
  if (value === null) return "?";
  const sign = value > 0 ? "+" : "";
  if (figure.dimension !== "ratio") return sign + showQuantity(data, value, figure.dimension, units);
  const rounded = value.toFixed(3);
  return Number(rounded) === 0 ? "+0.000" : sign + rounded;
}
