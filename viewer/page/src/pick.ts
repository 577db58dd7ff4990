// Which triangle of the cloth is pointed at, and what the files say of it.

import * as THREE from "three";
import type { Hammock } from "./hammock";
import type { FieldInfo, Scene, Units } from "./data";
import type { Stage } from "./stage";
import { showQuantity } from "./units";

const ray = new THREE.Raycaster();

export function pick(stage: Stage, hammock: Hammock, x: number, y: number): number | null {
  const { clientWidth: width, clientHeight: height } = stage.canvas;
  ray.setFromCamera(new THREE.Vector2((2 * x) / width - 1, 1 - (2 * y) / height), stage.camera);
  const [hit] = ray.intersectObject(hammock.cloth.mesh, false);
  return hit?.faceIndex ?? null;
}

// Says one field of a triangle, or all of them for null.
export function describe(scene: Scene, hammock: Hammock, triangle: number, field: FieldInfo | null, units: Units): string {
  const words = scene.fields
    .filter((info) => hammock.shape.fields[info.key] && (field === null || info.key === field.values))
    .map((info) => `${info.title} ${showQuantity(scene, hammock.shape.fields[info.key][triangle], info.dimension, units)}`);
  return [...words, scene.states[hammock.shape.state[triangle]], `triangle ${triangle}`].join(", ");
}
