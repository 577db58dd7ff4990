// Camera, light and drawing. The camera is parallel, as in the pictures.

import * as THREE from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";
import type { Shape } from "./data";

const AWAY = 10; // m, from the eye to what it looks at
const ROWS = 160; // pixels for the words above and below

export type View = [string, number, number]; // name, degrees from x towards y, degrees above the horizon

export class Stage {
  readonly world = new THREE.Scene();
  readonly camera = new THREE.OrthographicCamera();
  readonly controls: OrbitControls;
  private readonly renderer: THREE.WebGLRenderer;
  private readonly light = new THREE.DirectionalLight(0xffffff, 2.2);
  private readonly drawn: (() => void)[] = [];
  private waiting = false;
  private readonly near: THREE.Vector3[] = []; // the hammock up to its apexes
  private readonly whole: THREE.Vector3[] = []; // with lines, trees and ground

  constructor(readonly canvas: HTMLCanvasElement, shapes: Shape[]) {
    THREE.ColorManagement.enabled = false; // colours are shown as they are written
    this.renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true, stencil: true, preserveDrawingBuffer: true });
    this.renderer.outputColorSpace = THREE.LinearSRGBColorSpace;
    this.world.add(new THREE.AmbientLight(0xffffff, 1.5), this.light, this.light.target);
    this.camera.up.set(0, 0, 1);
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.zoomToCursor = true;
    this.controls.addEventListener("change", () => this.draw());
    for (const shape of shapes) this.measure(shape);
    new ResizeObserver(() => this.resize()).observe(canvas);
    this.resize();
  }

  onDraw(listener: () => void): void {
    this.drawn.push(listener);
  }

  draw(): void {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.light.position.copy(this.camera.position).add(new THREE.Vector3(-1, 1, 3));
      this.light.target.position.copy(this.controls.target);
      this.renderer.render(this.world, this.camera);
      for (const listener of this.drawn) listener();
    });
  }

  // Looks at the body from a side, or at everything between the trees.
  look(azimuth: number, elevation: number, all = false): void {
    const points = all ? this.whole : this.near;
    const [around, above] = [azimuth, elevation].map(THREE.MathUtils.degToRad);
    const eye = new THREE.Vector3(Math.cos(above) * Math.cos(around), Math.cos(above) * Math.sin(around), Math.sin(above));
    const target = new THREE.Box3().setFromPoints(points).getCenter(new THREE.Vector3());
    this.aim(target, eye);
    const seen = new THREE.Box3().setFromPoints(points.map((at) => at.clone().applyMatrix4(this.camera.matrixWorldInverse)));
    const middle = seen.getCenter(new THREE.Vector3()).setZ(-AWAY).applyMatrix4(this.camera.matrixWorld);
    this.aim(middle, eye);
    const size = seen.getSize(new THREE.Vector3());
    const { clientWidth, clientHeight } = this.canvas;
    this.camera.zoom = Math.min(clientWidth / (1.08 * size.x), (clientHeight - ROWS) / size.y);
    this.camera.updateProjectionMatrix();
    this.controls.update();
    this.draw();
  }

  private aim(target: THREE.Vector3, eye: THREE.Vector3): void {
    this.controls.target.copy(target);
    this.camera.position.copy(target).addScaledVector(eye, AWAY);
    this.camera.lookAt(target);
    this.camera.updateMatrixWorld();
  }

  turn(around: number, up: number): void {
    const away = this.camera.position.clone().sub(this.controls.target);
    const at = new THREE.Spherical().setFromVector3(new THREE.Vector3(away.x, away.z, -away.y));
    at.theta += around;
    at.phi = Math.min(Math.max(at.phi - up, 0.01), Math.PI - 0.01);
    const turned = new THREE.Vector3().setFromSpherical(at);
    this.camera.position.copy(this.controls.target).add(new THREE.Vector3(turned.x, -turned.z, turned.y));
    this.controls.update();
    this.draw();
  }

  zoom(factor: number): void {
    this.camera.zoom *= factor;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  // Where a point of space is seen on the canvas, in its pixels.
  project(at: [number, number, number]): [number, number] {
    const seen = new THREE.Vector3(...at).project(this.camera);
    return [((seen.x + 1) / 2) * this.canvas.clientWidth, ((1 - seen.y) / 2) * this.canvas.clientHeight];
  }

  private measure(shape: Shape): void {
    for (let place = 0; place < shape.points.length; place += 3) {
      const at = new THREE.Vector3().fromArray(shape.points, place);
      const onTree = shape.trees.some(([x, y, z]) => at.distanceTo(new THREE.Vector3(x, y, z)) < 1e-3);
      this.whole.push(at, ...(onTree ? [at.clone().setZ(0), at.clone().setZ(at.z + 0.35)] : []));
      if (!onTree) this.near.push(at);
    }
    this.near.push(...shape.labels.map((label) => new THREE.Vector3(...label.at)));
  }

  private resize(): void {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    if (!width || !height) return;
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    this.renderer.setSize(width, height, false);
    Object.assign(this.camera, { left: -width / 2, right: width / 2, top: height / 2, bottom: -height / 2, near: 0.1, far: 30 });
    this.camera.updateProjectionMatrix();
    this.draw();
  }
}
