import { Document, type GLTF, Primitive, WebIO } from '@gltf-transform/core';

/** glTF files made on the spot. */

/** One triangle, (0,0,0) (1,0,0) (0,1,0), hung from a node that moves it by (10, 0, 0). */
export function triangle(): Document {
  const document = new Document();
  const buffer = document.createBuffer();
  const position = document
    .createAccessor()
    .setType('VEC3')
    .setArray(new Float32Array([0, 0, 0, 1, 0, 0, 0, 1, 0]))
    .setBuffer(buffer);
  const indices = document
    .createAccessor()
    .setType('SCALAR')
    .setArray(new Uint16Array([0, 1, 2]))
    .setBuffer(buffer);
  const primitive = document.createPrimitive().setAttribute('POSITION', position).setIndices(indices);
  const node = document.createNode().setMesh(document.createMesh().addPrimitive(primitive));
  document.getRoot().setDefaultScene(document.createScene().addChild(node.setTranslation([10, 0, 0])));
  return document;
}

export async function glb(document: Document = triangle()): Promise<Uint8Array> {
  return new WebIO().writeBinary(document);
}

/** The same as text, its data inside as a data URI; `change` may spoil the JSON. */
export async function gltf(change: (json: GLTF.IGLTF) => void = () => {}): Promise<Uint8Array> {
  const { json, resources } = await new WebIO().writeJSON(triangle(), { basename: 'data' });
  const bytes = Object.values(resources)[0]!;
  json.buffers![0]!.uri = `data:application/octet-stream;base64,${Buffer.from(bytes).toString('base64')}`;
  change(json);
  return new TextEncoder().encode(JSON.stringify(json));
}

export function points(): Document {
  const document = triangle();
  document.getRoot().listMeshes()[0]!.listPrimitives()[0]!.setMode(Primitive.Mode.POINTS!);
  return document;
}
