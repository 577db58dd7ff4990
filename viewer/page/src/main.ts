// The page: a scene that can be turned, switches, and words for what is pointed at.

import { readScene, type Units } from "./data";
import { Hammock } from "./hammock";
import { fillLegend } from "./legend";
import { Marks } from "./marks";
import { describe, pick } from "./pick";
import { Stage, type View } from "./stage";
import { addButton, addCheck, addRadios, watchPage } from "./switches";

const STEP = Math.PI / 24; // one press of an arrow key
const scene = readScene();
const element = (id: string) => document.getElementById(id)!;
const lying = scene.shapes.some((shape) => shape.rods.length > 0);
const first: View = ["three quarters", lying ? -60 : -62, lying ? 40 : 30];
const views: View[] = [first, ["right side", -90, 0], ["foot end", 0, 0], ["above", -90, 90], ["below", -90, -60]];

class Page {
  private field = scene.fields[0];
  private units = document.documentElement.dataset.units as Units;
  private chosen = 0;
  private person = true;
  private strokes = true;
  private spots = true;
  private readonly stage: Stage;
  private readonly hammocks: Hammock[];
  private readonly marks: Marks;
  private readonly tip = element("tip");

  constructor(canvas: HTMLCanvasElement) {
    this.stage = new Stage(canvas, scene.shapes);
    this.hammocks = scene.shapes.map((shape) => new Hammock(scene, shape));
    for (const hammock of this.hammocks) this.stage.world.add(hammock.group);
    this.marks = new Marks(scene, this.stage, element("marks"), (triangle) => this.showReadout(triangle));
    this.stage.onDraw(() => this.marks.scaleBar(element("scale-bar"), this.units));
    this.addSwitches();
    this.listen(canvas);
    this.refresh();
    this.look(first[1], first[2], false);
  }

  setUnits(units: string): void {
    this.units = units as Units;
    this.refresh();
  }

  // For tests: where a point of space is seen, in pixels of the window, and what the camera does.
  locate(at: [number, number, number]): [number, number] {
    const [x, y] = this.stage.project(at);
    const box = this.stage.canvas.getBoundingClientRect();
    return [box.left + x, box.top + y];
  }

  get matrix(): number[] {
    const { camera } = this.stage;
    return camera.projectionMatrix.clone().multiply(camera.matrixWorldInverse).toArray();
  }

  private get hammock(): Hammock {
    return this.hammocks[this.chosen];
  }

  private addSwitches(): void {
    const fields: [string, string][] = scene.fields.map((field) => [field.key, field.title]);
    addRadios(element("field-switch"), "field", fields, (key) => {
      this.field = scene.fields.find((field) => field.key === key)!;
      this.refresh();
    });
    const shapes: [string, string][] = scene.shapes.map((shape, place) => [String(place), `${"AB"[place]}: ${shape.name}`]);
    if (shapes.length > 1) {
      addRadios(element("shape-switch"), "shape", shapes, (key) => { this.chosen = Number(key); this.refresh(); });
    }
    for (const [name, azimuth, elevation] of views) {
      addButton(element("view-switch"), name, () => this.look(azimuth, elevation, false));
    }
    addButton(element("view-switch"), "all, with trees", () => this.look(-75, 12, true));
    const layers = element("layer-switch");
    addCheck(layers, "forces", (on) => this.marks.showLabels(on));
    addCheck(layers, "hot spots", (on) => { this.spots = on; this.refresh(); });
    addCheck(layers, "marks", (on) => { this.strokes = on; this.refresh(); });
    if (lying) addCheck(layers, "person", (on) => { this.person = on; this.refresh(); });
  }

  private refresh(): void {
    const look = { info: this.field, units: this.units };
    this.hammocks.forEach((hammock, place) => {
      hammock.show(look, place === this.chosen);
      hammock.showPerson(this.person);
      hammock.cloth.showMarks(this.strokes);
    });
    this.marks.fill(this.hammock, this.field, this.units);
    this.marks.showSpots(this.spots);
    fillLegend(element("legend"), scene, this.hammock.shape, look);
    this.stage.draw();
  }

  private look(azimuth: number, elevation: number, all: boolean): void {
    for (const hammock of this.hammocks) hammock.showTrees(all);
    this.stage.look(azimuth, elevation, all);
  }

  private showReadout(triangle: number | null): void {
    element("readout").textContent = triangle === null
      ? "No cloth here."
      : describe(scene, this.hammock, triangle, null, this.units);
  }

  private hover(event: PointerEvent): void {
    const box = this.stage.canvas.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    const triangle = pick(this.stage, this.hammock, x, y);
    this.tip.hidden = triangle === null;
    if (triangle === null) return;
    this.tip.textContent = describe(scene, this.hammock, triangle, this.field, this.units).replaceAll(", ", "\n");
    const left = Math.max(4, Math.min(x + 14, box.width - this.tip.offsetWidth - 4));
    const top = y + 14 + this.tip.offsetHeight > box.height ? y - 14 - this.tip.offsetHeight : y + 14;
    this.tip.style.transform = `translate(${left}px, ${Math.max(4, top)}px)`;
  }

  private listen(canvas: HTMLCanvasElement): void {
    canvas.addEventListener("pointermove", (event) => { if (!event.buttons) this.hover(event); });
    canvas.addEventListener("pointerleave", () => { this.tip.hidden = true; });
    canvas.addEventListener("pointerdown", () => { this.tip.hidden = true; });
    canvas.addEventListener("click", (event) => {
      const box = canvas.getBoundingClientRect();
      this.showReadout(pick(this.stage, this.hammock, event.clientX - box.left, event.clientY - box.top));
    });
    const keys: Record<string, () => void> = {
      ArrowLeft: () => this.stage.turn(-STEP, 0),
      ArrowRight: () => this.stage.turn(STEP, 0),
      ArrowUp: () => this.stage.turn(0, STEP),
      ArrowDown: () => this.stage.turn(0, -STEP),
      "+": () => this.stage.zoom(1.2),
      "=": () => this.stage.zoom(1.2),
      "-": () => this.stage.zoom(1 / 1.2),
      "0": () => this.look(first[1], first[2], false),
      Enter: () => this.showReadout(pick(this.stage, this.hammock, canvas.clientWidth / 2, canvas.clientHeight / 2)),
    };
    canvas.addEventListener("keydown", (event) => {
      const act = keys[event.key];
      if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      act();
    });
  }
}

declare global {
  interface Window {
    tautlay?: Page;
  }
}

// A canvas of its own shows whether there is WebGL: the renderer writes to the console where there is none.
function hasWebgl(): boolean {
  return document.createElement("canvas").getContext("webgl2") !== null;
}

if (hasWebgl()) {
  window.tautlay = new Page(element("scene") as HTMLCanvasElement);
} else {
  document.documentElement.classList.add("no-webgl");
  element("no-scene").hidden = false;
}

// On paper a picture replaces the scene; where the page has none, it is drawn from the canvas.
addEventListener("beforeprint", () => {
  const canvas = document.getElementById("scene") as HTMLCanvasElement;
  let stand = document.querySelector<HTMLImageElement>(".stand-in img");
  if (!window.tautlay || (stand && !stand.dataset.drawn)) return;
  if (!stand) {
    const figure = document.createElement("figure");
    figure.className = "picture stand-in";
    stand = document.createElement("img");
    stand.alt = "Loaded shape";
    stand.dataset.drawn = "yes";
    figure.append(stand);
    element("shape").append(figure);
  }
  stand.src = canvas.toDataURL();
});
watchPage((units) => window.tautlay?.setUnits(units));
