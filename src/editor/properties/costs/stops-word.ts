/** "+1 stop", "−0⅔ stop", "−2⅓ stops": what is spoken of an amount in thirds. */
export function stopsWord(text: string): string {
  const upToOne = /^[+\u2212]?(0.*|1)$/.test(text) && text !== '0';
  return `${text} ${upToOne ? 'stop' : 'stops'}`;
}
