// The designs that nothing beats in two figures, by the same rule as the program that wrote the page: one beats another
// if it is as good in both and better in one, compared in the same digits; designs that are alike all stay.

import type { Data, Figure } from "./data";
import { HOLDS } from "./data";

export function findFront(data: Data, places: number[], first: Figure | undefined, second: Figure | undefined): number[] {
  if (!first?.better || !second?.better) return [];
  const cost = (figure: Figure, place: number) => {
    const rounded = Number(figure.values[place]!.toPrecision(data.digits));
    return figure.better === "less" ? rounded : -rounded;
  };
  const known = places
    .filter((place) => data.kinds[place] === HOLDS && first.values[place] !== null && second.values[place] !== null)
    .map((place) => ({ place, one: cost(first, place), other: cost(second, place) }))
    .sort((a, b) => a.one - b.one || a.other - b.other);
  const front: typeof known = [];
  for (const each of known) {
    const last = front.at(-1);
    if (!last || each.other < last.other || (each.one === last.one && each.other === last.other)) front.push(each);
  }
  return front.map((each) => each.place);
}
