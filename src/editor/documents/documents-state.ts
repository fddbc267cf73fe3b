import type { Standing } from './open-document.ts';
import type { KeptScene } from './shelf.ts';

/** What the page says of the document that is open. */
export interface DocumentShown {
  readonly id: string | null;
  readonly standing: Standing;
  readonly copy: boolean;
  /** The file that it was opened from or saved to. */
  readonly fileName: string | null;
  /** Whether that file holds it as it stands. */
  readonly saved: boolean;
  /** Whether the browser keeps it as it stands. */
  readonly kept: boolean;
  /** What the page itself brought, unchanged. */
  readonly delivered: boolean;
}

/** A photometric file that waits to be looked at before it is taken. */
export interface PhotometricFileBrought {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export type DocumentDialog =
  | { readonly kind: 'kept-scenes' }
  /** The link could not be put on the clipboard: it is there to be copied by hand. */
  | { readonly kind: 'link'; readonly link: string }
  /** Its file was written by something else since it was opened here. */
  | { readonly kind: 'file-changed'; readonly fileName: string };

export interface DocumentsState {
  readonly shown: DocumentShown | null;
  /** The scenes that this browser keeps, the last changed first. */
  readonly kept: readonly KeptScene[];
  readonly dialog: DocumentDialog | null;
  /** What was just done or could not be, in words. */
  readonly notice: string | null;
  readonly brought: readonly PhotometricFileBrought[];
}

export const NO_DOCUMENTS: DocumentsState = {
  shown: null,
  kept: [],
  dialog: null,
  notice: null,
  brought: [],
};
