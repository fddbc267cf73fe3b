import { describe, expect, it } from 'vitest';
import { readMesh } from '../../../src/scene/files/mesh-file.ts';
import { glb, gltf, points, triangle } from '../../support/meshes.ts';

const TRIANGLE = {
  positions: Float64Array.of(10, 0, 0, 11, 0, 0, 10, 1, 0),
  indices: Uint32Array.of(0, 1, 2),
};

describe('reading a mesh', () => {
  it('takes a .glb, with every node in its place', async () => {
    expect(await readMesh(await glb())).toEqual(TRIANGLE);
  });

  it('takes a .gltf that holds its data', async () => {
    expect(await readMesh(await gltf())).toEqual(TRIANGLE);
  });

  it('takes a view into a larger buffer, as Node hands them out', async () => {
    const bytes = await glb();
    const larger = new Uint8Array(bytes.byteLength + 100).fill(0xff);
    larger.set(bytes, 7);
    expect(await readMesh(larger.subarray(7, 7 + bytes.byteLength))).toEqual(TRIANGLE);
  });

  it('takes corners in order where there are no indices, and leaves out a last one or two', async () => {
    const document = triangle();
    const primitive = document.getRoot().listMeshes()[0]!.listPrimitives()[0]!;
    primitive.setIndices(null);
    primitive.getAttribute('POSITION')!.setArray(new Float32Array([0, 0, 0, 1, 0, 0, 0, 1, 0, 5, 5, 5]));
    expect((await readMesh(await glb(document))).indices).toEqual(Uint32Array.of(0, 1, 2));
  });

  it('takes a mesh as often as it is hung up', async () => {
    const document = triangle();
    const [scene] = document.getRoot().listScenes();
    const [mesh] = document.getRoot().listMeshes();
    const parent = document.createNode().setTranslation([0, 5, 0]);
    parent.addChild(document.createNode().setMesh(mesh!).setScale([2, 2, 2]));
    scene!.addChild(parent);
    const { positions, indices } = await readMesh(await glb(document));
    expect(indices).toEqual(Uint32Array.of(0, 1, 2, 3, 4, 5));
    expect([...positions.slice(9)]).toEqual([0, 5, 0, 2, 5, 0, 0, 7, 0]);
  });
});

describe('a mesh that cannot be used is refused with a reason', () => {
  const refusal = async (bytes: Uint8Array | Promise<Uint8Array>) =>
    readMesh(await bytes).then(
      () => 'accepted',
      (error: Error) => error.message,
    );
  const text = (content: string) => new TextEncoder().encode(content);

  it.each<[string, () => Uint8Array | Promise<Uint8Array>, RegExp]>([
    ['nothing', () => text(''), /^it is empty$/],
    ['prose', () => text('hello'), /^it is not a glTF file$/],
    ['half of a file', () => text('{"asset": {"ver'), /^its JSON is cut short or damaged$/],
    ['JSON that is no glTF', () => text('{"a": 1}'), /^it is not a glTF file$/],
    ['null', () => text('null'), /^it is not a glTF file$/],
    ['a list', () => text('[]'), /^it is not a glTF file$/],
    [
      'glTF 1',
      () =>
        gltf((json) => {
          json.asset.version = '1.0';
        }),
      /^it cannot be read \(Unsupported glTF version, "1.0"\.\)$/,
    ],
    ['points', () => glb(points()), /^it holds no triangles$/],
    [
      'data in another file',
      () =>
        gltf((json) => {
          json.buffers![0]!.uri = 'data.bin';
        }),
      /^its data lie in other files; save it as one \.glb$/,
    ],
    [
      'data on the network',
      () =>
        gltf((json) => {
          json.buffers![0]!.uri = 'https://example.com/x.bin';
        }),
      /^its data lie in other files/,
    ],
    [
      'data up the folders',
      () =>
        gltf((json) => {
          json.buffers![0]!.uri = '../../etc/passwd';
        }),
      /^its data lie in other files/,
    ],
    [
      'a picture in another file',
      () =>
        gltf((json) => {
          json.images = [{ uri: 'x.png' }];
        }),
      /^its data lie in other files/,
    ],
    [
      'a triangle without its corner',
      async () => {
        const document = triangle();
        document
          .getRoot()
          .listMeshes()[0]!
          .listPrimitives()[0]!
          .getIndices()!
          .setArray(new Uint16Array([0, 1, 3]));
        return glb(document);
      },
      /^a triangle names corner 3, which is not there$/,
    ],
    [
      'a corner nowhere',
      async () => {
        const document = triangle();
        document
          .getRoot()
          .listMeshes()[0]!
          .listPrimitives()[0]!
          .getAttribute('POSITION')!
          .setArray(new Float32Array([0, 0, 0, 1, 0, 0, 0, Number.NaN, 0]));
        return glb(document);
      },
      /^a corner lies at NaN m$/,
    ],
    [
      'a corner beyond the world',
      async () => {
        const document = triangle();
        document.getRoot().listNodes()[0]!.setTranslation([0, 3e38, 0]);
        return glb(document);
      },
      /^a corner lies at /,
    ],
    [
      'a ring of nodes',
      () =>
        gltf((json) => {
          json.nodes = [{ mesh: 0, children: [1] }, { children: [0] }];
          json.scenes = [{ nodes: [0] }];
        }),
      /^its nodes hang in a ring, or more than 200 deep$/,
    ],
    [
      'a node that hangs from itself',
      () =>
        gltf((json) => {
          json.nodes = [{ mesh: 0, children: [0] }];
        }),
      /^its nodes hang in a ring/,
    ],
    [
      'a node with two parents',
      () =>
        gltf((json) => {
          json.nodes = [{ children: [2] }, { children: [2] }, { mesh: 0 }];
        }),
      /^node 2 hangs from two others$/,
    ],
    [
      'nodes deeper than any model',
      () =>
        gltf((json) => {
          json.nodes = Array.from({ length: 100_000 }, (_, i) =>
            i < 99_999 ? { children: [i + 1] } : { mesh: 0 },
          );
        }),
      /^its nodes hang in a ring, or more than 200 deep$/,
    ],
    [
      'counts without the figures',
      () =>
        gltf((json) => {
          for (const accessor of json.accessors!) {
            delete accessor.bufferView;
            accessor.count = 2_000_000_000;
          }
        }),
      /^it states 4000000000 elements, at most 10000000 are read$/,
    ],
    [
      'counts in words',
      () =>
        gltf((json) => {
          (json.accessors![0] as { count: unknown }).count = 'many';
        }),
      /^it states .*many.* elements/,
    ],
    [
      'more triangles than can be metered',
      () =>
        gltf((json) => {
          for (const accessor of json.accessors!) {
            delete accessor.bufferView;
            accessor.count = 1_600_000;
          }
        }),
      /^it holds more than 500000 triangles; thin it out$/,
    ],
    [
      'a compressed one',
      () =>
        gltf((json) => {
          json.extensionsRequired = ['KHR_draco_mesh_compression'];
        }),
      /Missing required extension, "KHR_draco_mesh_compression"/,
    ],
    [
      'an accessor past the data',
      () =>
        gltf((json) => {
          json.accessors![0]!.count = 1000;
        }),
      /its data end before the 1000 elements of accessor 0 do/,
    ],
    [
      'nodes that are no list',
      () =>
        gltf((json) => {
          (json as { nodes: unknown }).nodes = 5;
        }),
      /^it cannot be read \(/,
    ],
  ])('%s', async (_, make, reason) => {
    const message = await refusal(make());
    expect(message).toMatch(reason);
    expect(message).not.toBe('accepted');
  });

  it('a .glb that is cut short anywhere', async () => {
    const whole = await glb();
    for (let length = 0; length < whole.byteLength; length += 7)
      expect(await refusal(whole.slice(0, length))).toMatch(/^it (is empty|is cut short|cannot be read)/);
  });

  it('a .glb whose header lies about its length', async () => {
    const bytes = await glb();
    new DataView(bytes.buffer).setUint32(8, 0xffff_ffff, true);
    expect(await refusal(bytes)).toBe('it is cut short');
  });

  it('a .glb of random bytes after its first word, whatever they are', async () => {
    const bytes = await glb();
    let state = 12345;
    for (let round = 0; round < 40; round++) {
      const spoilt = bytes.slice();
      for (let k = 0; k < 6; k++) {
        state = (Math.imul(state, 1103515245) + 12345) >>> 0;
        spoilt[12 + (state % (spoilt.length - 12))] = state >>> 24;
      }
      // A triangle may come out with a corner elsewhere, but never a crash or something that is no mesh.
      const result = await readMesh(spoilt).catch((error: Error) => error.message);
      if (typeof result !== 'string') expect(result.indices.length % 3).toBe(0);
      else expect(result.length).toBeGreaterThan(5);
    }
  });
});
