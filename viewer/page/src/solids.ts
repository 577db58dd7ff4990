// Capsules, rods with round ends: cords, bars, posts and the person are composed of them.

import * as THREE from "three";

export interface Capsule {
  start: THREE.Vector3;
  end: THREE.Vector3;
  first: number; // radius at the start, m
  last: number;
}

// The hull of two balls, as rings along its axis; one geometry for all rods.
export function buildRods(rods: Capsule[], around: number, rounds: number, colours: [number, number, number][] = []): THREE.BufferGeometry {
  const positions: number[] = [], normals: number[] = [], painted: number[] = [], faces: number[] = [];
  for (const [place, rod] of rods.entries()) {
    const axis = rod.end.clone().sub(rod.start);
    const length = axis.length();
    const along = length > 1e-9 ? axis.divideScalar(length) : new THREE.Vector3(0, 0, 1);
    const lean = length > Math.abs(rod.first - rod.last) ? Math.asin((rod.first - rod.last) / length) : Math.PI / 2;
    const aside = Math.abs(along.z) < 0.9 ? new THREE.Vector3(0, 0, 1) : new THREE.Vector3(1, 0, 0);
    const u = aside.cross(along).normalize(), v = along.clone().cross(u);
    const base = positions.length / 3;
    const rings: [THREE.Vector3, number, number][] = []; // middle of the ball, its radius, latitude
    for (let k = 0; k <= rounds; k++) rings.push([rod.start, rod.first, -Math.PI / 2 + ((lean + Math.PI / 2) * k) / rounds]);
    for (let k = 0; k <= rounds; k++) rings.push([rod.end, rod.last, lean + ((Math.PI / 2 - lean) * k) / rounds]);
    for (const [middle, radius, latitude] of rings) {
      for (let k = 0; k < around; k++) {
        const turn = (2 * Math.PI * k) / around;
        const normal = along.clone().multiplyScalar(Math.sin(latitude))
          .addScaledVector(u, Math.cos(latitude) * Math.cos(turn)).addScaledVector(v, Math.cos(latitude) * Math.sin(turn));
        positions.push(...middle.clone().addScaledVector(normal, radius).toArray());
        normals.push(...normal.toArray());
        if (colours.length) painted.push(...colours[place]);
      }
    }
    for (let ring = 0; ring < rings.length - 1; ring++) {
      for (let k = 0; k < around; k++) {
        const a = base + ring * around + k, b = base + ring * around + ((k + 1) % around);
        faces.push(a, b, b + around, a, b + around, a + around);
      }
    }
  }
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute("position", new THREE.Float32BufferAttribute(positions, 3));
  geometry.setAttribute("normal", new THREE.Float32BufferAttribute(normals, 3));
  if (colours.length) geometry.setAttribute("color", new THREE.Float32BufferAttribute(painted, 3));
  geometry.setIndex(faces);
  return geometry;
}
