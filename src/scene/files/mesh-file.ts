/** Triangles of a mesh file in its own frame, metres, y up, as glTF has them: three indices a triangle. */
export interface MeshData {
  readonly positions: Float64Array;
  readonly indices: Uint32Array;
}

/** More than this cannot be metered while a lamp is dragged; the budget is 100 000. */
const MAX_TRIANGLES = 500_000;
const MAX_CORNERS = 3 * MAX_TRIANGLES;
/** All accessors together; a file may state any count without holding the figures. */
const MAX_ELEMENTS = 10_000_000;
const MAX_NODE_DEPTH = 200;
const MAX_COORDINATE_m = 1e6;
const GLB_MAGIC = 0x46546c67;
const TRIANGLES = 4;

/**
 * Geometry of a glTF 2.0 file (.glb, or .gltf with its data inside), all nodes of its scene in place; colours and
 * textures are not read, the document's material rules. Throws with a message when it cannot be used.
 */
export async function readMesh(bytes: Uint8Array): Promise<MeshData> {
  const gltf = await readGltf(bytes);

  const positions: number[] = [];
  const indices: number[] = [];
  const scene = gltf.getRoot().getDefaultScene() ?? gltf.getRoot().listScenes()[0];
  scene?.traverse((node) => {
    const m = node.getWorldMatrix();
    for (const primitive of node.getMesh()?.listPrimitives() ?? []) {
      const position = primitive.getAttribute('POSITION');
      if (!position || primitive.getMode() !== TRIANGLES) continue;
      const order = primitive.getIndices();
      const count = order ? order.getCount() : position.getCount();
      const first = positions.length / 3;
      if (first + position.getCount() > MAX_CORNERS || indices.length + count > MAX_CORNERS)
        throw new MeshFault(`it holds more than ${MAX_TRIANGLES} triangles; thin it out`);
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
      for (let k = 0; k < count - (count % 3); k++) {
        const corner = order ? order.getScalar(k) : k;
        if (!(Number.isInteger(corner) && corner < position.getCount()))
          throw new MeshFault(`a triangle names corner ${corner}, which is not there`);
        indices.push(first + corner);
      }
    }
  });
  if (indices.length === 0) throw new MeshFault('it holds no triangles');
  const wild = positions.find((v) => !(Math.abs(v) <= MAX_COORDINATE_m));
  if (wild !== undefined) throw new MeshFault(`a corner lies at ${wild} m`);
  return { positions: Float64Array.from(positions), indices: Uint32Array.from(indices) };
}

type GltfReader = import('@gltf-transform/core').WebIO;
type GltfFile = Awaited<ReturnType<GltfReader['binaryToJSON']>>;

/** A fault in words of ours; the library's own are about its insides. */
class MeshFault extends Error {}

async function readGltf(bytes: Uint8Array) {
  // Loaded only when a scene has a mesh: most have none.
  const { Logger, WebIO } = await import('@gltf-transform/core');
  const io = new WebIO().setLogger(new Logger(Logger.Verbosity.SILENT));
  try {
    // A copy, because the library reads past the end of a view into the buffer behind it.
    const file = await fileOf(io, new Uint8Array(bytes));
    refuseUnusable(file.json);
    return await io.readJSON(file);
  } catch (error) {
    if (error instanceof MeshFault) throw error;
    const { message } = error as Error;
    if (/external/i.test(message)) throw new MeshFault(ELSEWHERE);
    throw new MeshFault(`it cannot be read (${message})`, { cause: error });
  }
}

async function fileOf(io: GltfReader, bytes: Uint8Array): Promise<GltfFile> {
  const header = new DataView(bytes.buffer);
  if (bytes.byteLength === 0) throw new MeshFault('it is empty');
  if (bytes.byteLength < 4 || header.getUint32(0, true) !== GLB_MAGIC) {
    const json = jsonIn(new TextDecoder().decode(bytes));
    if (typeof json?.asset !== 'object') throw new MeshFault('it is not a glTF file');
    return { json, resources: {} };
  }
  if (bytes.byteLength < 12 || header.getUint32(8, true) > bytes.byteLength)
    throw new MeshFault('it is cut short');
  return await io.binaryToJSON(bytes);
}

function jsonIn(text: string) {
  try {
    return JSON.parse(text);
  } catch (error) {
    const begun = /^\s*\{/.test(text);
    throw new MeshFault(begun ? 'its JSON is cut short or damaged' : 'it is not a glTF file', {
      cause: error,
    });
  }
}

const ELSEWHERE = 'its data lie in other files; save it as one .glb';

/** What the library would wait for, or follow round and round. */
function refuseUnusable(json: GltfFile['json']): void {
  const { buffers = [], images = [], accessors = [], nodes = [] } = json;
  const uris = [...buffers, ...images].map(({ uri }) => uri);
  // The library has put names that begin with two underscores in the place of data that it holds.
  if (uris.some((uri) => uri !== undefined && !/^(?:data:|__)/.test(uri))) throw new MeshFault(ELSEWHERE);
  const elements = accessors.reduce((sum, { count, sparse }) => sum + count + (sparse?.count ?? 0), 0);
  if (!(elements <= MAX_ELEMENTS))
    throw new MeshFault(`it states ${elements} elements, at most ${MAX_ELEMENTS} are read`);
  refuseBeyondData(json);

  const parents = new Map<number, number>();
  for (const [parent, { children = [] }] of nodes.entries()) {
    for (const child of children) {
      if (parents.has(child)) throw new MeshFault(`node ${child} hangs from two others`);
      parents.set(child, parent);
    }
  }
  for (const node of nodes.keys()) {
    let above = parents.get(node);
    for (let depth = 1; above !== undefined; depth++) {
      if (depth > MAX_NODE_DEPTH)
        throw new MeshFault(`its nodes hang in a ring, or more than ${MAX_NODE_DEPTH} deep`);
      above = parents.get(above);
    }
  }
}

/** Bytes of a component and components of an element, as the standard has them (glTF 2.0, 3.6.2.2). */
const COMPONENT_BYTES: Readonly<Record<number, number>> = {
  5120: 1,
  5121: 1,
  5122: 2,
  5123: 2,
  5125: 4,
  5126: 4,
};
const COMPONENTS: Readonly<Record<string, number>> = {
  SCALAR: 1,
  VEC2: 2,
  VEC3: 3,
  VEC4: 4,
  MAT2: 4,
  MAT3: 9,
  MAT4: 16,
};

/** The library reads past the end of a view into whatever lies behind it in memory. */
function refuseBeyondData({ accessors = [], bufferViews = [], buffers = [] }: GltfFile['json']): void {
  for (const [i, { buffer, byteOffset = 0, byteLength }] of bufferViews.entries())
    if (!(byteOffset + byteLength <= (buffers[buffer]?.byteLength ?? 0)))
      throw new MeshFault(`its data end before part ${i} of them does`);
  for (const [i, { bufferView, byteOffset = 0, count, componentType, type }] of accessors.entries()) {
    if (bufferView === undefined) continue;
    const view = bufferViews[bufferView];
    const element = (COMPONENT_BYTES[componentType] ?? Number.NaN) * (COMPONENTS[type] ?? Number.NaN);
    const end = byteOffset + (count - 1) * (view?.byteStride ?? element) + element;
    if (!(end <= (view?.byteLength ?? 0)))
      throw new MeshFault(`its data end before the ${count} elements of accessor ${i} do`);
  }
}
