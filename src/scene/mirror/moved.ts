import { lampFrame } from '../../core/lamps/lamp-frame.ts';
import type { LightModel } from '../../core/light-model/light-model.ts';
import type { Vec3 } from '../../core/math/vec3.ts';
import type { Camera } from '../schema/camera.ts';
import type { SceneDocument } from '../schema/document.ts';

/**
 * A scene with one lamp elsewhere: it keeps its aim point. The bodies are shared with the old model. What a burning
 * position does to a lamp's output (LM-63 tilt factors) is left as it was.
 */
export function lampMovedTo(model: LightModel, document: SceneDocument, id: string, to_m: Vec3): LightModel {
  const { aim_m, roll_deg } = document.lamps!.find((lamp) => lamp.id === id)!;
  return {
    ...model,
    lamps: model.lamps.map((lamp) =>
      lamp.id === id ? { ...lamp, frame: lampFrame(to_m, aim_m, roll_deg) } : lamp,
    ),
  };
}

/** The document with a lamp elsewhere. */
export function withLampAt(document: SceneDocument, id: string, position_m: Vec3): SceneDocument {
  const at = [...position_m] as [number, number, number];
  return {
    ...document,
    lamps: (document.lamps ?? []).map((lamp) => (lamp.id === id ? { ...lamp, position_m: at } : lamp)),
  };
}

/** A camera elsewhere keeps looking at its look point; a focus that was pulled by tape stays. */
export function cameraAt(camera: Camera, position_m: Vec3): Camera {
  return { ...camera, position_m: [...position_m] as [number, number, number] };
}

export function withCamera(document: SceneDocument, camera: Camera): SceneDocument {
  return { ...document, cameras: (document.cameras ?? []).map((c) => (c.id === camera.id ? camera : c)) };
}
