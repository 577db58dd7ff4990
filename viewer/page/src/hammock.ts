// One loaded hammock in the scene: cloth, cords, bars, trees and the person.

import * as THREE from "three";
import { Cloth, shiftDepth } from "./cloth";
import { chooseTicks, type Look, parseColour, type Rgb, takeColour } from "./colour";
import type { Scene, Shape } from "./data";
import { buildRods, type Capsule } from "./solids";

const PRESSED = 0.025; // m: flesh is pressed flat where it goes into the cloth, so it is drawn that much further away
const SEEN = 0.7, HIDDEN = 0.2; // opacity of the person before and behind the cloth
const OUTLINE = "#8a1f5c";

export class Hammock {
  readonly group = new THREE.Group();
  readonly cloth: Cloth;
  private readonly person = new THREE.Group();
  private readonly trees = new THREE.Group();
  private readonly lines = new THREE.Mesh(new THREE.BufferGeometry(), new THREE.MeshLambertMaterial({ vertexColors: true }));

  constructor(private readonly scene: Scene, readonly shape: Shape) {
    this.cloth = new Cloth(scene, shape);
    this.group.add(this.cloth.group, this.lines, this.person, this.trees);
    if (shape.rods.length) this.buildPerson();
    if (shape.trees.length) this.buildTrees();
  }

  // In colours, or in outline when another shape has the colours.
  show(look: Look, solid: boolean): void {
    this.cloth.colour(look, solid);
    this.lines.geometry.dispose();
    this.lines.geometry = this.buildLines(look, solid);
    this.person.userData.solid = solid;
    this.trees.userData.solid = solid;
  }

  showPerson(shown: boolean): void {
    this.person.visible = shown && this.person.userData.solid;
  }

  showTrees(shown: boolean): void {
    this.trees.visible = shown && this.trees.userData.solid;
  }

  private point(number: number): THREE.Vector3 {
    return new THREE.Vector3().fromArray(this.shape.points, 3 * number);
  }

  // Cords are thicker for more tension, bars with a knob at each end.
  private buildLines(look: Look, solid: boolean): THREE.BufferGeometry {
    const { segments, bar, force, bar_share: share } = this.shape, { bars, cords, colours } = this.scene;
    const end = chooseTicks(cords.ticks, look.units).at(-1)!;
    const rods: Capsule[] = [], painted: Rgb[] = [];
    const add = (start: THREE.Vector3, stop: THREE.Vector3, radius: number, colour: Rgb) => {
      rods.push({ start, end: stop, first: radius, last: radius });
      painted.push(solid ? colour : parseColour(OUTLINE));
    };
    for (const each of bar.keys()) {
      const [start, stop] = [segments[2 * each], segments[2 * each + 1]].map((point) => this.point(point));
      const pull = Math.min(Math.abs(force[each]) / end, 1);
      if (bar[each]) {
        add(start, stop, bars.radius, share[each] < 0 ? parseColour(colours.bar) : takeColour(colours.bars, share[each]));
        for (const tip of [start, stop]) add(tip, tip, bars.knob, parseColour(colours.bar));
      } else add(start, stop, cords.growth[0] + cords.growth[1] * pull, takeColour(colours.cords, pull));
    }
    return buildRods(rods, 8, 2, painted);
  }

  private buildTrees(): void {
    const { colours } = this.scene, { trees } = this.shape;
    for (const [x, y, z, radius] of trees) {
      const height = z + 0.35;
      const post = new THREE.Mesh(new THREE.CylinderGeometry(radius, radius, height, 20), new THREE.MeshLambertMaterial({ color: colours.tree }));
      post.rotation.x = Math.PI / 2;
      post.position.set(x + Math.sign(x) * radius, y, height / 2);
      this.trees.add(post);
    }
    const [first, last] = [trees[0], trees[trees.length - 1]];
    const ground = new THREE.GridHelper(1, 10, colours.ground, colours.ground);
    ground.rotation.x = Math.PI / 2;
    const length = Math.abs(last[0] - first[0]) + 1;
    ground.scale.set(length, 1, 0.4 * length);
    ground.position.set((first[0] + last[0]) / 2, 0, 0);
    (ground.material as THREE.Material).opacity = 0.4;
    (ground.material as THREE.Material).transparent = true;
    this.trees.add(ground);
  }

  // First the depth of the nearest skin, then its colour once: rods that meet show no seams. What cloth hides is paler.
  private buildPerson(): void {
    const { rods } = this.shape;
    const list: Capsule[] = [];
    for (let at = 0; at < rods.length; at += 8) {
      const [start, end] = [0, 3].map((part) => new THREE.Vector3().fromArray(rods, at + part));
      list.push({ start, end, first: rods[at + 6], last: rods[at + 7] });
    }
    const geometry = buildRods(list, 18, 5);
    const colour = this.scene.colours.flesh;
    const hidden = new THREE.MeshLambertMaterial({
      color: colour, transparent: true, opacity: HIDDEN, depthWrite: false, depthFunc: THREE.GreaterDepth,
      stencilWrite: true, stencilRef: 1, stencilFunc: THREE.NotEqualStencilFunc, stencilZPass: THREE.ReplaceStencilOp,
    });
    const depth = new THREE.MeshLambertMaterial({ colorWrite: false, transparent: true });
    const skin = new THREE.MeshLambertMaterial({ color: colour, transparent: true, opacity: SEEN, depthWrite: false, depthFunc: THREE.LessEqualDepth,
      stencilWrite: true, stencilRef: 2, stencilFunc: THREE.NotEqualStencilFunc, stencilZPass: THREE.ReplaceStencilOp });
    [hidden, depth, skin].forEach((material, place) => {
      const mesh = new THREE.Mesh(geometry, shiftDepth(material, -PRESSED));
      mesh.renderOrder = place + 1;
      this.person.add(mesh);
    });
  }
}
