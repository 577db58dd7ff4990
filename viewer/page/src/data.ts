// What the page holds about the scene: numbers as JSON, arrays as base64 of their bytes.

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
  end: number; // top of the scale of colours, SI
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
  fields: Record<string, Float64Array>;
  segments: Uint32Array;
  bar: Uint8Array;
  free: Uint8Array;
  force: Float64Array;
  rods: Float32Array;
  extensions: Point[][];
  trees: Point[];
  labels: Label[];
  spots: Spot[];
}

export interface Colours {
  scale: Uint8Array;
  slack: string;
  wrinkled: string;
  taut: string;
  flesh: string;
  cord: string;
  bar: string;
  tree: string;
  ground: string;
  extension: string;
}

export interface Scene {
  shapes: Shape[];
  fields: FieldInfo[];
  states: string[];
  units: Record<string, Record<System, Unit[]>>;
  colours: Colours;
}

const ARRAYS = {
  points: Float32Array, triangles: Uint32Array, state: Uint8Array, direction: Float32Array, segments: Uint32Array,
  bar: Uint8Array, free: Uint8Array, force: Float64Array, rods: Float32Array,
};

function decode(text: string): ArrayBuffer {
  return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0)).buffer;
}

export function readScene(): Scene {
  const raw = JSON.parse(document.getElementById("scene-data")!.textContent!);
  for (const shape of raw.shapes) {
    for (const [name, kind] of Object.entries(ARRAYS)) shape[name] = new kind(decode(shape[name]));
    for (const key of Object.keys(shape.fields)) shape.fields[key] = new Float64Array(decode(shape.fields[key]));
  }
  raw.colours.scale = new Uint8Array(decode(raw.colours.scale));
  return raw as Scene;
}
