/** The remainder of every byte by the generator polynomial of ISO/IEC 15948 Annex D, lowest bit first. */
const REMAINDERS = Uint32Array.from({ length: 256 }, (_, byte) => {
  let remainder = byte;
  for (let bit = 0; bit < 8; bit++) remainder = (remainder >>> 1) ^ (remainder & 1 ? 0xedb88320 : 0);
  return remainder;
});

/** The cyclic redundancy check of a PNG chunk's type and data, 32 bits unsigned. Source: ISO/IEC 15948, Annex D. */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ REMAINDERS[(crc ^ bytes[i]!) & 0xff]!;
  return (crc ^ 0xffffffff) >>> 0;
}
