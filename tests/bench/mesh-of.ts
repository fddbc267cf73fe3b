import { Document, WebIO } from '@gltf-transform/core';

/** A binary glTF of a bumpy sheet, 4 m square, of about so many triangles. */
export async function meshOf(triangles: number): Promise<Uint8Array> {
  const cells = Math.round(Math.sqrt(triangles / 2));
  const across = cells + 1;
  const positions = new Float32Array(3 * across * across);
  for (let i = 0; i < across * across; i++) {
    const [x, z] = [(4 * (i % across)) / cells - 2, (4 * Math.floor(i / across)) / cells - 2];
    positions.set([x, 0.3 + 0.2 * Math.sin(3 * x) * Math.cos(3 * z), z], 3 * i);
  }
  const indices = new Uint32Array(6 * cells * cells);
  for (let cell = 0; cell < cells * cells; cell++) {
    const a = Math.floor(cell / cells) * across + (cell % cells);
    indices.set([a, a + across, a + 1, a + 1, a + across, a + across + 1], 6 * cell);
  }
  const document = new Document();
  const buffer = document.createBuffer();
  const accessor = (type: 'VEC3' | 'SCALAR', array: Float32Array<ArrayBuffer> | Uint32Array<ArrayBuffer>) =>
    document.createAccessor().setType(type).setArray(array).setBuffer(buffer);
  const primitive = document
    .createPrimitive()
    .setAttribute('POSITION', accessor('VEC3', positions))
    .setIndices(accessor('SCALAR', indices));
  const node = document.createNode().setMesh(document.createMesh().addPrimitive(primitive));
  document.getRoot().setDefaultScene(document.createScene().addChild(node));
  return new WebIO().writeBinary(document);
}
