/** A glTF 2.0 binary of one tetrahedron with edges of about a metre. */
export function tetrahedronGlb(): Uint8Array {
  const positions = new Float32Array([0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1]);
  const indices = new Uint16Array([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3]);
  const data = new Uint8Array(positions.byteLength + indices.byteLength);
  data.set(new Uint8Array(positions.buffer), 0);
  data.set(new Uint8Array(indices.buffer), positions.byteLength);
  const gltf = {
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0 }],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1 }] }],
    accessors: [
      { bufferView: 0, componentType: 5126, count: 4, type: 'VEC3', min: [0, 0, 0], max: [1, 1, 1] },
      { bufferView: 1, componentType: 5123, count: 12, type: 'SCALAR' },
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: positions.byteLength },
      { buffer: 0, byteOffset: positions.byteLength, byteLength: indices.byteLength },
    ],
    buffers: [{ byteLength: data.byteLength }],
  };
  const text = new TextEncoder().encode(JSON.stringify(gltf));
  const paddedText = new Uint8Array(Math.ceil(text.length / 4) * 4).fill(0x20);
  paddedText.set(text);
  const paddedData = new Uint8Array(Math.ceil(data.length / 4) * 4);
  paddedData.set(data);
  const glb = new Uint8Array(12 + 8 + paddedText.length + 8 + paddedData.length);
  const view = new DataView(glb.buffer);
  const words = [0x46546c67, 2, glb.length, paddedText.length, 0x4e4f534a];
  for (const [i, word] of words.entries()) view.setUint32(4 * i, word, true);
  glb.set(paddedText, 20);
  view.setUint32(20 + paddedText.length, paddedData.length, true);
  view.setUint32(24 + paddedText.length, 0x004e4942, true);
  glb.set(paddedData, 28 + paddedText.length);
  return glb;
}
