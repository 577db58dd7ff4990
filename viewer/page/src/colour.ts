// Colours of the cloth: the scale of the pictures for numbers, three colours for the state.

import type { Scene, Shape } from "./data";

export const STATE = "state"; // key of the field that is no number
export const SLACK = 0, WRINKLED = 1;
export type Rgb = [number, number, number];

export function parseColour(text: string): Rgb {
  return [1, 3, 5].map((at) => parseInt(text.slice(at, at + 2), 16) / 255) as Rgb;
}

// Share of the scale, 0 to 1, that a triangle stands at; null where it has no number to show.
export function findShare(scene: Scene, shape: Shape, field: string, triangle: number): number | null {
  const info = scene.fields.find((each) => each.key === field);
  const values = shape.fields[field];
  if (!info || !values) return null;
  if (field === "pressure" ? values[triangle] <= 0 : shape.state[triangle] === SLACK) return null;
  return Math.min(Math.max(values[triangle] / info.end, 0), 1);
}

export function paint(scene: Scene, shape: Shape, field: string, triangle: number): Rgb {
  const { slack, wrinkled, taut, scale } = scene.colours;
  if (field === STATE) return parseColour([slack, wrinkled, taut][shape.state[triangle]]);
  const share = findShare(scene, shape, field, triangle);
  if (share === null) return parseColour(slack);
  const at = 3 * Math.min(Math.floor(share * 256), 255);
  return [scale[at] / 255, scale[at + 1] / 255, scale[at + 2] / 255];
}

// Whether a mark on this triangle must be dark to be seen.
export function needsDark(scene: Scene, shape: Shape, field: string, triangle: number): boolean {
  const [red, green, blue] = paint(scene, shape, field, triangle);
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue > 0.5;
}
