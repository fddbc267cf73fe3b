import { inflateSync } from 'node:zlib';

/**
 * A PNG reader for tests, written from the standard (ISO/IEC 15948) and not from the writer: checks every chunk's length and
 * CRC, and undoes all five row filters.
 */
export interface ReadPng {
  readonly chunks: readonly { readonly type: string; readonly data: Buffer }[];
  readonly width: number;
  readonly height: number;
  readonly rgb: readonly number[];
  readonly texts: ReadonlyMap<string, string>;
}

export function readPng(bytes: Uint8Array): ReadPng {
  const file = Buffer.from(bytes);
  // published: the signature of the standard
  if (file.subarray(0, 8).toString('latin1') !== '\x89PNG\r\n\x1a\n') throw new Error('no PNG signature');
  const chunks: { type: string; data: Buffer }[] = [];
  for (let at = 8; at < file.length; ) {
    const length = file.readUInt32BE(at);
    const data = file.subarray(at + 8, at + 8 + length);
    if (crcOf(file.subarray(at + 4, at + 8 + length)) !== file.readUInt32BE(at + 8 + length))
      throw new Error('CRC');
    chunks.push({ type: file.toString('latin1', at + 4, at + 8), data });
    at += 12 + length;
  }
  const header = chunks[0]!.data;
  const [width, height] = [header.readUInt32BE(0), header.readUInt32BE(4)];
  const packed = Buffer.concat(chunks.filter(({ type }) => type === 'IDAT').map(({ data }) => data));
  return {
    chunks,
    width,
    height,
    rgb: unfiltered(inflateSync(packed), width, height),
    texts: new Map(chunks.filter(({ type }) => type === 'iTXt').map(({ data }) => textOf(data))),
  };
}

/** Bit by bit, from the polynomial in Annex D. */
export function crcOf(data: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of data) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

function textOf(data: Buffer): [keyword: string, text: string] {
  const end = data.indexOf(0);
  const [compressed, method] = [data[end + 1], data[end + 2]];
  if (compressed !== 0 || method !== 0) throw new Error('compressed text');
  const language = data.indexOf(0, end + 3);
  const translated = data.indexOf(0, language + 1);
  return [data.toString('latin1', 0, end), data.toString('utf8', translated + 1)];
}

function unfiltered(raw: Buffer, width: number, height: number): number[] {
  const stride = 3 * width;
  if (raw.length !== height * (stride + 1)) throw new Error(`${raw.length} bytes of rows`);
  const out: number[] = [];
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)];
    for (let x = 0; x < stride; x++) {
      const a = x >= 3 ? out[y * stride + x - 3]! : 0;
      const b = y > 0 ? out[(y - 1) * stride + x]! : 0;
      const c = x >= 3 && y > 0 ? out[(y - 1) * stride + x - 3]! : 0;
      const predictions = [0, a, b, (a + b) >> 1, nearestOf(a + b - c, a, b, c)];
      out.push((raw[y * (stride + 1) + 1 + x]! + predictions[filter!]!) & 255);
    }
  }
  return out;
}

/** Of a, b, c in this order, the first one nearest to p. */
function nearestOf(p: number, ...candidates: number[]): number {
  return candidates.reduce((best, next) => (Math.abs(p - next) < Math.abs(p - best) ? next : best));
}
