// The perspective drawing from behind the cue ball. Units m; x, y as on the table, z up.
import {
  BufferGeometry,
  CanvasTexture,
  CircleGeometry,
  Color,
  DoubleSide,
  ExtrudeGeometry,
  HemisphereLight,
  DirectionalLight,
  Line,
  LineBasicMaterial,
  LineDashedMaterial,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type Object3D,
  PerspectiveCamera,
  RingGeometry,
  Scene,
  Shape,
  ShapeGeometry,
  SphereGeometry,
  SRGBColorSpace,
  Vector3,
  WebGLRenderer,
} from 'three';
import { colourOf, radiusOf } from '../document/layout.ts';
import { cushionOutlines, type Rail } from '../geometry/outline.ts';
import { place } from '../geometry/view.ts';
import { ballLook } from '../look.ts';
import type { Layout, Moves, Table } from '../server/types.ts';

export interface EyePicture {
  table: Table;
  layout: Layout;
  moves: Moves;
  width: number;
  height: number;
  /** mm above the bed. */
  eyeHeight: number;
}

export interface Eye {
  show(picture: EyePicture): void;
  dispose(): void;
}

/** How far behind the cue ball the eye is, m. */
const behind_m = 0.75;

function colour(name: string): Color {
  return new Color(getComputedStyle(document.documentElement).getPropertyValue(name).trim());
}

/** The ball's own colour and letter as a skin, so that a grey picture still tells them apart. */
function skin(id: string): CanvasTexture {
  const size = 256;
  const canvas = document.createElement('canvas');
  canvas.width = 2 * size;
  canvas.height = size;
  const pen = canvas.getContext('2d');
  const probe = document.querySelector(`.ball.${colourOf(id)}`);
  const style = probe ? getComputedStyle(probe) : null;
  if (pen) {
    pen.fillStyle = style?.getPropertyValue('--ball').trim() || '#cccccc';
    pen.fillRect(0, 0, 2 * size, size);
    pen.fillStyle = style?.getPropertyValue('--letter').trim() || '#000000';
    pen.font = `600 ${size / 3}px sans-serif`;
    pen.textAlign = 'center';
    pen.textBaseline = 'middle';
    const { letter } = ballLook(colourOf(id));
    for (const x of [size / 2, (3 * size) / 2]) pen.fillText(letter, x, size / 2);
  }
  const texture = new CanvasTexture(canvas);
  texture.colorSpace = SRGBColorSpace;
  return texture;
}

function shapeOf(points: { x: number; y: number }[]): Shape {
  const shape = new Shape();
  points.forEach((p, i) => (i === 0 ? shape.moveTo(p.x, p.y) : shape.lineTo(p.x, p.y)));
  return shape;
}

function bedAndCushions(table: Table): Object3D[] {
  const [width = 0, length = 0] = table.playing_area_mm.map((mm) => mm / 1000);
  const outlines = cushionOutlines(table.rails as Rail[], 1000 * width, 1000 * length).map((each) =>
    each.map((p) => ({ x: p.x / 1000, y: p.y / 1000 })),
  );
  const flat = (shape: Shape, name: string, z: number) => {
    const mesh = new Mesh(
      new ShapeGeometry(shape),
      new MeshBasicMaterial({ color: colour(name), side: DoubleSide }),
    );
    mesh.position.z = z;
    return mesh;
  };
  const meshes: Object3D[] = [flat(shapeOf(outlines.flat()), '--bed', 0)];
  const nose = table.nose_height_mm / 1000;
  for (const outline of outlines) {
    // Nose and jaws, closed by the chord between the jaws' ends: the rubber's upper face.
    const cushion = new Mesh(
      new ExtrudeGeometry(shapeOf(outline), {
        depth: nose,
        bevelEnabled: false,
      }),
      new MeshLambertMaterial({ color: colour('--rule') }),
    );
    meshes.push(cushion);
  }
  for (const pocket of table.pockets) {
    const mesh = new Mesh(
      new CircleGeometry(pocket.fall_radius / 1000, 48),
      new MeshBasicMaterial({ color: colour('--ink') }),
    );
    mesh.position.set((pocket.centre[0] ?? 0) / 1000, (pocket.centre[1] ?? 0) / 1000, 0.001);
    meshes.push(mesh);
  }
  return meshes;
}

export function drawEye(canvas: HTMLCanvasElement): Eye {
  const renderer = new WebGLRenderer({ canvas, antialias: true });
  renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));

  function show({ table, layout, moves, width, height, eyeHeight }: EyePicture): void {
    const scene = new Scene();
    scene.background = colour('--paper');
    scene.add(new HemisphereLight(0xffffff, 0x999999, 2.4));
    const lamp = new DirectionalLight(0xffffff, 1.4);
    lamp.position.set(0.2, 0.4, 2);
    scene.add(lamp);
    for (const mesh of bedAndCushions(table)) scene.add(mesh);

    const cueBall = layout.balls.find((ball) => ball.id === 'cue');
    const path = moves.balls.find((move) => move.ball === 'cue')?.path ?? [];
    const from = place(cueBall?.at ?? [0, 0]);
    const contact = moves.events.find(
      (event) => event.kind === 'ball-ball' && event.balls.includes('cue'),
    );
    const to = contact ? place(contact.at) : place(path[1]?.slice(1) ?? [from.x, from.y + 1]);
    const far = Math.hypot(to.x - from.x, to.y - from.y) || 1;
    const along = new Vector3((to.x - from.x) / far, (to.y - from.y) / far, 0);
    const R = radiusOf(table, 'cue') / 1000;
    const start = new Vector3(from.x / 1000, from.y / 1000, R);
    const end = new Vector3(to.x / 1000, to.y / 1000, R);

    const ink = colour('--ink');
    const accent = colour('--accent');
    for (const ball of layout.balls) {
      const radius = radiusOf(table, ball.id) / 1000;
      const material = new MeshLambertMaterial({ map: skin(ball.id) });
      const mesh = new Mesh(new SphereGeometry(radius, 48, 32), material);
      mesh.position.set((ball.at[0] ?? 0) / 1000, (ball.at[1] ?? 0) / 1000, radius);
      // Upright, its letter towards the eye.
      mesh.rotation.set(Math.PI / 2, Math.atan2(-along.x, along.y), 0, 'ZXY');
      scene.add(mesh);
      const foot = new Mesh(
        new CircleGeometry(radius * 0.8, 32),
        new MeshBasicMaterial({ color: ink, transparent: true, opacity: 0.18 }),
      );
      foot.position.set(mesh.position.x, mesh.position.y, 0.0008);
      scene.add(foot);
    }

    const aim = new Line(
      new BufferGeometry().setFromPoints([start, end]),
      new LineDashedMaterial({ color: ink, dashSize: 0.03, gapSize: 0.015 }),
    );
    aim.computeLineDistances();
    scene.add(aim);
    // Where the cue ball meets the object ball: its outline as the eye sees it, and the aim point.
    const ring = new Mesh(
      new RingGeometry(R * 0.96, R, 64),
      new MeshBasicMaterial({ color: accent, side: DoubleSide, depthTest: false }),
    );
    ring.position.copy(end);
    const camera = new PerspectiveCamera(30, width / height, 0.02, 12);
    camera.up.set(0, 0, 1);
    camera.position
      .copy(start)
      .addScaledVector(along, -behind_m)
      .setZ(eyeHeight / 1000);
    camera.lookAt(start.clone().lerp(end, 0.75));
    ring.lookAt(camera.position);
    ring.renderOrder = 2;
    scene.add(ring);
    const mark = new Line(
      new BufferGeometry().setFromPoints([end.clone().setZ(R * 0.4), end.clone().setZ(R * 1.6)]),
      new LineBasicMaterial({ color: accent, depthTest: false }),
    );
    scene.add(mark);

    renderer.setSize(width, height, true);
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    renderer.render(scene, camera);
  }

  return { show, dispose: () => renderer.dispose() };
}
