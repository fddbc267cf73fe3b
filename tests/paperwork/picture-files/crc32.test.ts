import { crc32 as crc32OfNode } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../../src/paperwork/picture-files/crc32.ts';

describe('the check of a chunk', () => {
  it('is that of another implementation', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(crc32(bytes)).toBe(crc32OfNode(bytes));
      }),
      { seed: 15948 },
    );
  });

  it('of "123456789" is the check value of the polynomial', () => {
    // published: ISO/IEC 8802-3's CRC-32, check value CBF43926
    expect(crc32(Buffer.from('123456789'))).toBe(0xcbf43926);
  });
});
