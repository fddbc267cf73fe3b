/** Fields of the document whose names are no words of the trade. */
const WORDS: Readonly<Record<string, string>> = {
  on: 'Switched',
  position_m: 'Stands at',
  aim_m: 'Aimed at',
  look_m: 'Looks at',
  rotation_deg: 'Turned',
  heading_deg: 'Looks toward',
  fNumber: 'Stop',
  shutter_s: 'Shutter',
  iso: 'ISO',
  nd_stops: 'ND',
  loss_stops: 'Lens loss',
  cct_K: 'Colour',
  coatIor: 'Clear coat',
};

/** What a field is called where only its name in the document is known: "visibility_m" is "Visibility". */
export function fieldWords(key: string): string {
  const known = WORDS[key];
  if (known !== undefined) return known;
  const words = key.replace(/_[a-z0-9]+$/i, '').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A value of the document in few words. */
export function valueWords(value: unknown): string {
  if (value === null) return 'none';
  if (value === true) return 'on';
  if (value === false) return 'off';
  if (Array.isArray(value)) return value.map(valueWords).join(', ');
  if (typeof value === 'object') {
    return Object.entries(value as object)
      .map(([key, part]) => `${fieldWords(key).toLowerCase()} ${valueWords(part)}`)
      .join(', ');
  }
  return typeof value === 'number'
    ? String(Number(value.toPrecision(6))).replace('-', '\u2212')
    : String(value);
}
