import type { SceneDocument } from '../../scene/schema/document.ts';
import { meshNames } from './mesh-names.ts';

/** What stands before the scene in a link. The part after # never leaves the browser. */
const PREFIX = '#scene=';
/** Longer links are cut by mail and chat programs. */
export const MOST_LINK_CHARACTERS = 30_000;
/** Of the scene in a link, unpacked: far more than fits where nobody tampered with it. */
const MOST_UNPACKED_BYTES = 4_000_000;

export type Linked = { readonly link: string } | { readonly fault: string };
export type Unlinked = { readonly text: string } | { readonly fault: string };

export function isSceneLink(fragment: string): boolean {
  return fragment.startsWith(PREFIX);
}

/**
 * A link that carries the whole scene: JSON, deflated (RFC 1951), in base64url (RFC 4648) after the #. Refused with the
 * reason where the scene needs files beside it, or is too large to travel so.
 */
export async function linkTo(page: string, document: SceneDocument): Promise<Linked> {
  const meshes = meshNames(document);
  if (meshes.length > 0) {
    const names = meshes.slice(0, 3).join(', ');
    return { fault: `A link cannot carry meshes (${names}). Send the scene's file with them beside it.` };
  }
  if (typeof CompressionStream === 'undefined')
    return { fault: 'This browser cannot pack a scene into a link. Save it as a file and send that.' };
  const text = new Blob([JSON.stringify(document)]);
  const packed = new Uint8Array(
    await new Response(text.stream().pipeThrough(new CompressionStream('deflate-raw'))).arrayBuffer(),
  );
  const carried = toBase64url(packed);
  if (carried.length > MOST_LINK_CHARACTERS) {
    return {
      fault: `This scene makes a link of ${thousands(carried.length)} characters; more than ${thousands(MOST_LINK_CHARACTERS)} get lost on the way. Send its file.`,
    };
  }
  return { link: `${page.replace(/#.*$/s, '')}${PREFIX}${carried}` };
}

/** The text of the scene in a link, or what is wrong with the link. Reads no further than a scene can be large. */
export async function sceneInLink(fragment: string): Promise<Unlinked> {
  const carried = fragment.slice(PREFIX.length);
  if (carried.length > MOST_LINK_CHARACTERS)
    return { fault: `${thousands(carried.length)} characters, more than a link from here ever has` };
  if (!/^[A-Za-z0-9_-]+$/.test(carried)) return { fault: 'characters that no link from here has' };
  if (typeof DecompressionStream === 'undefined')
    return { fault: 'a packed scene, which this browser cannot unpack' };
  try {
    const packed = new Blob([fromBase64url(carried)]).stream();
    return await textOf(packed.pipeThrough(new DecompressionStream('deflate-raw')));
  } catch {
    return { fault: 'a scene that is damaged or cut short' };
  }
}

async function textOf(stream: ReadableStream<Uint8Array>): Promise<Unlinked> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const reader = stream.getReader();
  let text = '';
  let bytes = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return { text: text + decoder.decode() };
    bytes += value.byteLength;
    if (bytes > MOST_UNPACKED_BYTES) {
      await reader.cancel();
      return { fault: `more than ${MOST_UNPACKED_BYTES / 1e6} MB, unpacked` };
    }
    text += decoder.decode(value, { stream: true });
  }
}

function toBase64url(bytes: Uint8Array): string {
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** Throws for a length that no bytes have. */
function fromBase64url(text: string): Uint8Array<ArrayBuffer> {
  const binary = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
}

function thousands(count: number): string {
  return String(count).replace(/\B(?=(?:\d{3})+$)/g, ' ');
}
