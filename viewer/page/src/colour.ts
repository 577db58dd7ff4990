// Colours of the cloth, cords and bars: the scales of the pictures for numbers, three colours for the state.

import type { FieldInfo, Scene, Shape, System, Ticks, Units } from "./data";

export const STATE = "state"; // dimension of the field that is no number
export const SLACK = 0, WRINKLED = 1, TAUT = 2;
export type Rgb = [number, number, number];

const PALE = 0.6; // of the scale: paler colours carry dark marks

// What the cloth shows, and in which units its scale is round.
export interface Look {
  info: FieldInfo;
  units: Units;
}

export function parseColour(text: string): Rgb {
  return [1, 3, 5].map((at) => parseInt(text.slice(at, at + 2), 16) / 255) as Rgb;
}

export function chooseTicks(ticks: Ticks, units: Units): number[] {
  const system: System = units === "imperial" ? "imperial" : "metric";
  return ticks[system];
}

export function takeColour(scale: Uint8Array, share: number): Rgb {
  const at = 3 * Math.min(Math.floor(Math.max(share, 0) * 256), 255);
  return [scale[at] / 255, scale[at + 1] / 255, scale[at + 2] / 255];
}

// Share of the scale, 0 to 1, that a triangle stands at.
export function findShare(shape: Shape, { info, units }: Look, triangle: number): number {
  const values = shape.fields[info.values];
  return values ? Math.min(Math.max(values[triangle] / chooseTicks(info.ticks, units).at(-1)!, 0), 1) : 0;
}

export function paint(scene: Scene, shape: Shape, look: Look, triangle: number): Rgb {
  const { colours } = scene, { info } = look;
  if (info.dimension === STATE) return parseColour(colours.states[shape.state[triangle]]);
  const share = findShare(shape, look, triangle);
  if (info.dimension === "stress" ? share === 0 : shape.state[triangle] === SLACK) {
    return parseColour(info.dimension === "stress" ? colours.plain : colours.slack);
  }
  return takeColour(colours.scale, share);
}

// Whether a mark on this triangle must be dark to be seen.
export function needsDark(shape: Shape, look: Look, triangle: number): boolean {
  if (look.info.dimension === STATE) return shape.state[triangle] !== TAUT;
  return shape.state[triangle] === SLACK || findShare(shape, look, triangle) > PALE;
}
