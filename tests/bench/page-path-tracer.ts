import {
  BufferGeometry,
  Color,
  Float32BufferAttribute,
  Mesh,
  MeshPhysicalMaterial,
  PerspectiveCamera,
  Scene,
  WebGLRenderer,
} from 'three';
import { PhysicalSpotLight, WebGLPathTracer } from 'three-gpu-pathtracer';
import { textFromWords, wordsOf } from '../parity/support/words.ts';
import type { EquivalentScene } from './equivalent-scene.ts';

/** What the general-purpose path tracer is asked for. */
export interface PathTracerJob {
  readonly scene: EquivalentScene;
  readonly width: number;
  readonly height: number;
  /** Blocks of samples whose means are read back, and samples of each. */
  readonly blocks: number;
  readonly samples: number;
}

export interface PathTracerOutcome {
  /** By block, its mean, four floats a pixel, rows upward. */
  readonly blockWords: readonly string[];
  readonly build_ms: number;
  /** Of all blocks, without the first sample, in which the shader is built. */
  readonly sampling_ms: number;
}

declare global {
  interface Window {
    keyfallPathTracer(job: PathTracerJob): Promise<PathTracerOutcome>;
  }
}

window.keyfallPathTracer = async ({ scene, width, height, blocks, samples }) => {
  const began = performance.now();
  const renderer = new WebGLRenderer({ canvas: document.createElement('canvas') });
  renderer.setPixelRatio(1);
  renderer.setSize(width, height, false);
  const tracer = new WebGLPathTracer(renderer);
  tracer.renderToCanvas = false;
  tracer.rasterizeScene = false;
  tracer.renderDelay = 0;
  tracer.tiles.set(4, 4);
  tracer.setScene(threeScene(scene), cameraOf(scene, width / height));

  let total: Float32Array = new Float32Array(4 * width * height);
  const until = async (count: number) => {
    while (tracer.samples < count) {
      tracer.renderSample();
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
    const mean = new Float32Array(4 * width * height);
    renderer.readRenderTargetPixels(tracer.target, 0, 0, width, height, mean);
    return mean.map((x) => x * count);
  };
  total = await until(1);
  const built = performance.now();
  const blockWords: string[] = [];
  for (let block = 1; block <= blocks; block++) {
    const now = await until(1 + block * samples);
    blockWords.push(textFromWords(wordsOf(now.map((x, i) => (x - total[i]!) / samples))));
    total = now;
  }
  return { blockWords, build_ms: built - began, sampling_ms: performance.now() - built };
};

function threeScene({ surfaces, lamps }: EquivalentScene): Scene {
  const scene = new Scene();
  scene.background = new Color(0, 0, 0);
  for (const { positions, normals, rgb, metal, coated, roughness } of surfaces) {
    const geometry = new BufferGeometry()
      .setAttribute('position', new Float32BufferAttribute(positions, 3))
      .setAttribute('normal', new Float32BufferAttribute(normals, 3));
    const [r, g, b] = rgb;
    const material = new MeshPhysicalMaterial({
      color: new Color(r, g, b),
      metalness: metal ? 1 : 0,
      roughness: metal || coated ? roughness : 1,
      specularIntensity: metal || coated ? 1 : 0,
      side: 2,
    });
    scene.add(new Mesh(geometry, material));
  }
  for (const { position_m, aim_m, peak_cd, rgb, half_rad, softness, radius_m } of lamps) {
    const [r, g, b] = rgb;
    const light = new PhysicalSpotLight(new Color(r, g, b), peak_cd, 0, half_rad, softness, 2);
    light.radius = radius_m;
    light.position.set(...position_m);
    light.target.position.set(...aim_m);
    scene.add(light, light.target);
  }
  scene.updateMatrixWorld(true);
  return scene;
}

function cameraOf({ camera }: EquivalentScene, aspect: number): PerspectiveCamera {
  const seen = new PerspectiveCamera(camera.vertical_deg, aspect, 0.05, 500);
  seen.position.set(...camera.position_m);
  seen.lookAt(...camera.look_m);
  seen.updateMatrixWorld(true);
  return seen;
}
