/** Triangles of a mesh file in its own frame, metres, y up, as glTF has them: three indices a triangle. */
export interface MeshData {
  readonly positions: Float64Array;
  readonly indices: Uint32Array;
}

/** More than this cannot be metered while a lamp is dragged; the budget is 100 000. */
const MAX_TRIANGLES = 500_000;
const GLB_MAGIC = 0x46546c67;
const TRIANGLES = 4;

/**
 * Geometry of a glTF 2.0 file (.glb, or .gltf with its data inside), all nodes of its scene in place; colours and
 * textures are not read, the document's material rules. Throws with a message when it cannot be used.
 */
export async function readMesh(bytes: Uint8Array): Promise<MeshData> {
  // Loaded only when a scene has a mesh: most have none.
  const { WebIO } = await import('@gltf-transform/core');
  const io = new WebIO();
  const binary =
    bytes.byteLength >= 12 && new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true) === GLB_MAGIC;
  const gltf = binary ? await io.readBinary(bytes) : await io.readJSON(selfContained(bytes));

  const positions: number[] = [];
  const indices: number[] = [];
  const scene = gltf.getRoot().getDefaultScene() ?? gltf.getRoot().listScenes()[0];
  scene?.traverse((node) => {
    const m = node.getWorldMatrix();
    for (const primitive of node.getMesh()?.listPrimitives() ?? []) {
      const position = primitive.getAttribute('POSITION');
      if (!position || primitive.getMode() !== TRIANGLES) continue;
      const first = positions.length / 3;
      const p: number[] = [];
      for (let i = 0; i < position.getCount(); i++) {
        position.getElement(i, p);
        const [x, y, z] = p as [number, number, number];
        positions.push(
          m[0] * x + m[4] * y + m[8] * z + m[12],
          m[1] * x + m[5] * y + m[9] * z + m[13],
          m[2] * x + m[6] * y + m[10] * z + m[14],
        );
      }
      const order = primitive.getIndices();
      const count = order ? order.getCount() : position.getCount();
      for (let i = 0; i + 2 < count; i += 3) {
        for (let k = i; k < i + 3; k++) indices.push(first + (order ? order.getScalar(k) : k));
      }
      if (indices.length / 3 > MAX_TRIANGLES)
        throw new Error(`more than ${MAX_TRIANGLES} triangles; thin it out`);
    }
  });
  if (indices.length === 0) throw new Error('it holds no triangles');
  if (!positions.every((v) => Number.isFinite(v) && Math.abs(v) <= 1e6))
    throw new Error('a corner is not a place');
  const corners = positions.length / 3;
  if (indices.some((i) => i >= corners)) throw new Error('a triangle names a corner that is not there');
  return { positions: Float64Array.from(positions), indices: Uint32Array.from(indices) };
}

function selfContained(bytes: Uint8Array) {
  const json = JSON.parse(new TextDecoder().decode(bytes));
  const uris = [...(json.buffers ?? []), ...(json.images ?? [])].map((entry: { uri?: string }) => entry.uri);
  if (uris.some((uri) => uri !== undefined && !uri.startsWith('data:'))) {
    throw new Error('its data lie in other files; save it as one .glb');
  }
  const resources: Record<string, Uint8Array<ArrayBuffer>> = {};
  return { json, resources };
}
