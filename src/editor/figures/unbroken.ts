/** The same, but that no line breaks between a number and its unit. */
export function unbroken(text: string): string {
  return text.replace(/(\d) (?=\p{L}|%)/gu, '$1\u00a0');
}
