// What explains the colours: a ramp with numbers, or a key of states.

import type { Scene, Shape, Units } from "./data";
import { STATE } from "./colour";
import { chooseUnit, showNumber, showQuantity } from "./units";

function add(parent: HTMLElement, tag: string, kind = "", text = ""): HTMLElement {
  const child = document.createElement(tag);
  child.className = kind;
  child.textContent = text;
  parent.append(child);
  return child;
}

function addSwatch(parent: HTMLElement, words: string, kind: string, colour = ""): void {
  const swatch = add(parent, "span", "swatch");
  const box = add(swatch, "i", kind);
  if (colour) box.style.backgroundColor = colour;
  swatch.append(words);
}

export function fillLegend(legend: HTMLElement, scene: Scene, shape: Shape, field: string, units: Units): void {
  legend.replaceChildren();
  const info = scene.fields.find((each) => each.key === field);
  if (field === STATE || !info) {
    const colours = scene.colours;
    addSwatch(legend, "taut (no mark)", "", colours.taut);
    addSwatch(legend, "wrinkled, stroke along the wrinkles", "stroke", colours.wrinkled);
    addSwatch(legend, "slack, diamond", "diamond");
  } else {
    addRamp(legend, scene, info.end, info.dimension, units, info.title);
    const values = shape.fields[field];
    const most = values ? values.reduce((a, b) => Math.max(a, b), 0) : 0;
    addSwatch(legend, `largest ${showQuantity(scene, most, info.dimension, units)}`, "triangle");
    if (field === "pressure") addSwatch(legend, "nothing touches", "", scene.colours.slack);
    else {
      addSwatch(legend, "wrinkled, along the wrinkles", "stroke");
      addSwatch(legend, "slack", "diamond");
    }
  }
  addSwatch(legend, "cord, thicker for more tension", "", scene.colours.cord);
  addSwatch(legend, "spreader bar", "", scene.colours.bar);
  if (shape.extensions.length) addSwatch(legend, "cloth beyond a bar, carries nothing", "", scene.colours.extension);
  if (shape.rods.length) addSwatch(legend, "person, paler behind cloth", "", scene.colours.flesh);
  if (scene.shapes.length > 1) addSwatch(legend, "the other result, in outline", "", "#8a1f5c");
}

function addRamp(legend: HTMLElement, scene: Scene, end: number, dimension: string, units: Units, title: string): void {
  const ramp = add(legend, "div", "ramp");
  const systems = units === "both" ? (["metric", "imperial"] as const) : [units];
  const chosen = systems.map((system) => chooseUnit(scene, end, dimension, system));
  add(ramp, "div", "", `${title}, ${chosen.map((unit) => unit.name).join(" / ")}`);
  const strip = document.createElement("canvas");
  strip.width = 256;
  strip.height = 1;
  const drawing = strip.getContext("2d")!;
  const pixels = drawing.createImageData(256, 1);
  for (let place = 0; place < 256; place++) {
    pixels.data.set([...scene.colours.scale.subarray(3 * place, 3 * place + 3), 255], 4 * place);
  }
  drawing.putImageData(pixels, 0, 0);
  strip.setAttribute("aria-hidden", "true");
  ramp.append(strip);
  for (const unit of chosen) {
    const ends = add(ramp, "div", "ends");
    for (let tick = 0; tick <= 4; tick++) {
      const number = showNumber((end * tick) / 4 / unit.factor, 3);
      add(ends, "span", "", number.includes(".") ? number.replace(/\.?0+$/, "") : number);
    }
  }
}
