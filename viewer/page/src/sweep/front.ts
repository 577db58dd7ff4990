// The Pareto-optimal designs in two values, by the same rule as the program that wrote the page: one dominates another
// if it is as good in both and better in one, compared in the same digits; designs that tie all stay.

import type { Data, ResultValue } from "./data";
import { PASSES } from "./data";

export function findFront(data: Data, places: number[], first: ResultValue | undefined, second: ResultValue | undefined): number[] {
  if (!first?.better || !second?.better) return [];
  const cost = (figure: ResultValue, place: number) => {
    const rounded = Number(figure.values[place]!.toPrecision(data.digits));
    return figure.better === "less" ? rounded : -rounded;
  };
  const known = places
    .filter((place) => data.kinds[place] === PASSES && first.values[place] !== null && second.values[place] !== null)
    .map((place) => ({ place, one: cost(first, place), other: cost(second, place) }))
    .sort((a, b) => a.one - b.one || a.other - b.other);
  const front: typeof known = [];
  for (const each of known) {
    const last = front.at(-1);
    if (!last || each.other < last.other || (each.one === last.one && each.other === last.other)) front.push(each);
  }
  return front.map((each) => each.place);
}
