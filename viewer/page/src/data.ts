// The data of the scene: numbers as JSON, arrays as base64 of their bytes.

export type System = "metric" | "imperial";
export type Units = System | "both";
export type Point = [number, number, number];

export interface Unit {
  name: string;
  least: number; // SI value from which on it is used
  factor: number; // SI value of one
}

export interface FieldInfo {
  key: string;
  title: string;
  dimension: string;
  values: string; // key of the numbers it shows
  ticks: Ticks; // of the scale of colours, the last one at its top
  rule: "wrinkles" | "along" | "across" | "squares"; // which marks it has
  signs: Sign[];
}

export type Ticks = Record<System, number[]>; // SI, round in the units

// A row of the key: form of a mark and colour, empty for none, and what they mean.
export interface Sign {
  form: string;
  colour: string;
  words: string;
}

export interface Words {
  metric: string;
  imperial: string;
}

export interface Label extends Words {
  at: Point;
}

export interface Spot extends Label {
  number: number;
  triangle: number;
}

export interface Shape {
  name: string;
  points: Float32Array;
  triangles: Uint32Array;
  state: Uint8Array;
  direction: Float32Array;
  fields: Record<string, Float32Array>; // seven digits, of which three are shown
  segments: Uint32Array;
  bar: Uint8Array;
  force: Float64Array;
  bar_share: Float32Array; // thrust over capacity, negative where it was not checked
  rods: Float32Array;
  trees: [number, number, number, number][]; // where a line ends on the bark, and the radius of the trunk
  labels: Label[];
  spots: Spot[];
  signs: Sign[];
}

export interface Colours {
  scale: Uint8Array;
  cords: Uint8Array;
  bars: Uint8Array;
  states: string[];
  slack: string;
  plain: string;
  flesh: string;
  bar: string;
  tree: string;
  ground: string;
}

export interface Scene {
  shapes: Shape[];
  fields: FieldInfo[];
  cords: { title: string; ticks: Ticks; growth: [number, number] }; // radius of an idle cord, and what the strongest has more, m
  bars: { title: string; none: string; radius: number; knob: number }; // m
  states: string[];
  units: Record<string, Record<System, Unit[]>>;
  colours: Colours;
}

const ARRAYS = {
  points: Float32Array, triangles: Uint32Array, state: Uint8Array, direction: Float32Array, segments: Uint32Array,
  bar: Uint8Array, force: Float64Array, bar_share: Float32Array, rods: Float32Array,
};

function decode(text: string): ArrayBuffer {
  return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0)).buffer;
}

export function readScene(): Scene {
  const raw = JSON.parse(document.getElementById("scene-data")!.textContent!);
  for (const shape of raw.shapes) {
    for (const [name, kind] of Object.entries(ARRAYS)) shape[name] = new kind(decode(shape[name]));
    for (const key of Object.keys(shape.fields)) shape.fields[key] = new Float32Array(decode(shape.fields[key]));
  }
  for (const key of ["scale", "cords", "bars"]) raw.colours[key] = new Uint8Array(decode(raw.colours[key]));
  return raw as Scene;
}
