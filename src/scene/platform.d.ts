/** The one thing beyond the language that the document layer needs; browsers and Node both have it. */
declare class TextDecoder {
  constructor(label?: string);
  decode(bytes: Uint8Array): string;
}
