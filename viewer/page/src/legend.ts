// What explains the colours: ramps with numbers, and the key of the pictures.

import type { Scene, Shape, Sign, Units } from "./data";
import { chooseTicks, type Look, STATE } from "./colour";
import { chooseUnit, showNumber, showQuantity } from "./units";

const BELOW = 1 - 1e-9; // what stands on a scale is smaller than its end

interface Ramp {
  title: string;
  colours: Uint8Array;
  ticks: number[]; // SI
  dimension: string;
}

function add(parent: HTMLElement, tag: string, kind = "", text = ""): HTMLElement {
  const child = document.createElement(tag);
  child.className = kind;
  child.textContent = text;
  parent.append(child);
  return child;
}

function addSign(parent: HTMLElement, { form, colour, words }: Sign): void {
  const swatch = add(parent, "span", "swatch");
  const box = add(swatch, "i", form);
  if (colour) box.style.backgroundColor = colour;
  swatch.append(words);
}

export function fillLegend(legend: HTMLElement, scene: Scene, shape: Shape, { info, units }: Look): void {
  legend.replaceChildren();
  const { bars, colours, cords } = scene;
  if (info.dimension === STATE) add(legend, "div", "ramp", info.title);
  else {
    const { title, dimension } = info;
    addRamp(legend, scene, { title, colours: colours.scale, ticks: chooseTicks(info.ticks, units), dimension }, units);
  }
  const values = shape.fields[info.values];
  if (values) {
    const most = values.reduce((a, b) => Math.max(a, b), 0);
    addSign(legend, { form: "triangle", colour: "", words: `max ${showQuantity(scene, most, info.dimension, units)}` });
  }
  for (const sign of info.signs) addSign(legend, sign);
  const rest = add(legend, "div", "ramps");
  addRamp(rest, scene, { title: cords.title, colours: colours.cords, ticks: chooseTicks(cords.ticks, units), dimension: "force" }, units);
  if (shape.bar_share.some((share) => share >= 0)) {
    addRamp(rest, scene, { title: bars.title, colours: colours.bars, ticks: [0, 1], dimension: "share" }, units);
  } else add(rest, "span", "", bars.none);
  for (const sign of shape.signs) addSign(legend, sign);
  if (scene.shapes.length > 1) addSign(legend, { form: "", colour: "#8a1f5c", words: "the other result, in outline" });
}

function addRamp(legend: HTMLElement, scene: Scene, { title, colours, ticks, dimension }: Ramp, units: Units): void {
  const ramp = add(legend, "div", "ramp");
  const systems = units === "both" ? (["metric", "imperial"] as const) : [units];
  const rows = systems.map((system) => chooseUnit(scene, ticks.at(-1)! * BELOW, dimension, system));
  const chosen = rows.filter((unit, place) => rows.findIndex((other) => other.name === unit.name) === place);
  add(ramp, "div", "", `${title}, ${chosen.map((unit) => unit.name).join(" / ")}`);
  const strip = document.createElement("canvas");
  strip.width = 256;
  strip.height = 1;
  const drawing = strip.getContext("2d")!;
  const pixels = drawing.createImageData(256, 1);
  for (let place = 0; place < 256; place++) {
    pixels.data.set([...colours.subarray(3 * place, 3 * place + 3), 255], 4 * place);
  }
  drawing.putImageData(pixels, 0, 0);
  strip.setAttribute("aria-hidden", "true");
  ramp.append(strip);
  for (const unit of chosen) {
    const ends = add(ramp, "div", "ends");
    for (const tick of ticks) {
      const number = showNumber(tick / unit.factor, 3);
      add(ends, "span", "", number.includes(".") ? number.replace(/\.?0+$/, "") : number);
    }
  }
}
