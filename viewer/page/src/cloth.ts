// The cloth as a mesh of flat triangles in colours, with its edges and its marks.

import * as THREE from "three";
import type { Scene, Shape } from "./data";
import { findShare, type Look, needsDark, paint, SLACK, TAUT, WRINKLED } from "./colour";

const CELL = 0.065; // m, one mark in each cube of this size
const STROKE = 0.022, WIDTH = 0.0022, DIAMOND = 0.006, SQUARE = 0.013; // m, half sizes of marks
const FAINTEST = 0.04; // of the scale: smaller values carry no mark that grows with them
const LIFT = 0.012; // m towards the eye
const DARK = [0.1, 0.1, 0.1], LIGHT = [0.7, 0.9, 1.0]; // of marks; white would look like a hole in the cloth

// Draws a material as if it stood nearer to the eye, m (negative: further). The camera is parallel.
export function shiftDepth<M extends THREE.Material>(material: M, metres: number): M {
  material.onBeforeCompile = (shader) => {
    shader.vertexShader = shader.vertexShader.replace(
      "#include <project_vertex>",
      `#include <project_vertex>\ngl_Position.z += projectionMatrix[2][2] * float(${metres.toFixed(4)});`,
    );
  };
  material.customProgramCacheKey = () => `shift ${metres}`;
  return material;
}

export class Cloth {
  readonly group = new THREE.Group();
  readonly mesh: THREE.Mesh;
  readonly corners: Float32Array; // nine numbers a triangle
  private readonly marks: THREE.Mesh;
  private readonly chosen: number[]; // one triangle in each cube
  private readonly outline: THREE.LineSegments;

  constructor(private readonly scene: Scene, private readonly shape: Shape) {
    const { points, triangles } = shape;
    this.corners = new Float32Array(triangles.length * 3);
    triangles.forEach((point, place) => this.corners.set(points.subarray(3 * point, 3 * point + 3), 3 * place));
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute("position", new THREE.BufferAttribute(this.corners, 3));
    geometry.setAttribute("color", new THREE.BufferAttribute(new Float32Array(this.corners.length), 3));
    this.mesh = new THREE.Mesh(geometry, new THREE.MeshBasicMaterial({ vertexColors: true, side: THREE.DoubleSide }));
    this.outline = new THREE.LineSegments(this.findEdges(), shiftDepth(new THREE.LineBasicMaterial({ transparent: true }), 0.002));
    this.chosen = this.choose();
    this.marks = new THREE.Mesh(
      new THREE.BufferGeometry(),
      shiftDepth(new THREE.MeshBasicMaterial({ vertexColors: true, side: THREE.DoubleSide }), LIFT),
    );
    this.group.add(this.mesh, this.outline, this.marks);
  }

  colour(look: Look, solid: boolean): void {
    this.mesh.visible = this.marks.visible = solid;
    const edges = this.outline.material as THREE.LineBasicMaterial;
    edges.color.set(solid ? 0x000000 : 0x8a1f5c);
    edges.opacity = solid ? 0.1 : 0.45;
    const colours = this.mesh.geometry.getAttribute("color") as THREE.BufferAttribute;
    for (let triangle = 0; triangle < this.shape.state.length; triangle++) {
      const rgb = paint(this.scene, this.shape, look, triangle);
      for (let corner = 0; corner < 3; corner++) colours.setXYZ(3 * triangle + corner, ...rgb);
    }
    colours.needsUpdate = true;
    this.marks.geometry.dispose();
    this.marks.geometry = this.buildMarks(look);
  }

  showMarks(shown: boolean): void {
    this.marks.visible = shown && this.mesh.visible;
  }

  middle(triangle: number): THREE.Vector3 {
    const at = new THREE.Vector3();
    for (let corner = 0; corner < 3; corner++) at.add(this.corner(triangle, corner));
    return at.divideScalar(3);
  }

  private corner(triangle: number, corner: number): THREE.Vector3 {
    return new THREE.Vector3().fromArray(this.corners, 9 * triangle + 3 * corner);
  }

  private findEdges(): THREE.BufferGeometry {
    const { points, triangles } = this.shape;
    const seen = new Map<number, [number, number]>();
    const count = points.length / 3;
    for (let at = 0; at < triangles.length; at += 3) {
      for (let side = 0; side < 3; side++) {
        const a = triangles[at + side], b = triangles[at + ((side + 1) % 3)];
        seen.set(Math.min(a, b) * count + Math.max(a, b), [a, b]);
      }
    }
    const ends = [...seen.values()].flat().flatMap((point) => [...points.subarray(3 * point, 3 * point + 3)]);
    return new THREE.BufferGeometry().setAttribute("position", new THREE.Float32BufferAttribute(ends, 3));
  }

  private choose(): number[] {
    const cubes = new Map<string, number>();
    for (let triangle = 0; triangle < this.shape.state.length; triangle++) {
      const cube = this.middle(triangle).divideScalar(CELL).floor().toArray().join();
      if (!cubes.has(cube)) cubes.set(cube, triangle);
    }
    return [...cubes.values()];
  }

  // The rules of the pictures: strokes, diamonds where the cloth is slack, or squares that grow with the value.
  private buildMarks(look: Look): THREE.BufferGeometry {
    const corners: number[] = [], ink: number[] = [];
    for (const triangle of this.chosen) {
      const arms = this.placeMark(look, triangle);
      if (!arms) continue;
      const at = this.middle(triangle), [along, across] = arms;
      const [a, c] = [at.clone().add(along), at.clone().sub(along)];
      const [b, d] = [at.clone().add(across), at.clone().sub(across)];
      const shade = needsDark(this.shape, look, triangle) ? DARK : LIGHT;
      for (const corner of [a, b, c, a, c, d]) {
        corners.push(...corner.toArray());
        ink.push(...shade);
      }
    }
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute("position", new THREE.Float32BufferAttribute(corners, 3));
    geometry.setAttribute("color", new THREE.Float32BufferAttribute(ink, 3));
    return geometry;
  }

  // The half diagonals of a mark; null for none.
  private placeMark(look: Look, triangle: number): [THREE.Vector3, THREE.Vector3] | null {
    const { rule } = look.info, state = this.shape.state[triangle];
    const side = this.corner(triangle, 1).sub(this.corner(triangle, 0));
    const normal = side.clone().cross(this.corner(triangle, 2).sub(this.corner(triangle, 0))).normalize();
    const share = findShare(this.shape, look, triangle);
    if (rule === "squares") {
      if (share <= FAINTEST) return null;
      const aside = normal.clone().cross(new THREE.Vector3(1, 0, 0)).normalize();
      const ahead = aside.clone().cross(normal);
      const half = SQUARE * Math.sqrt(share);
      return [ahead.clone().add(aside).multiplyScalar(half), ahead.sub(aside).multiplyScalar(half)];
    }
    if (state === SLACK) {
      return [side.clone().setLength(DIAMOND), normal.cross(side).setLength(DIAMOND)];
    }
    const pull = new THREE.Vector3().fromArray(this.shape.direction, 3 * triangle);
    const across = normal.clone().cross(pull);
    if (rule === "across") {
      return state === TAUT && share > FAINTEST ? [across.setLength(STROKE * share), pull.setLength(WIDTH)] : null;
    }
    return rule === "along" || state === WRINKLED ? [pull.setLength(STROKE), across.setLength(WIDTH)] : null;
  }
}
