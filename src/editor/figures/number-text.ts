const VULGAR: Readonly<Record<string, number>> = {
  '¼': 1 / 4,
  '½': 1 / 2,
  '¾': 3 / 4,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};

/** "12", "2.5", "2,5", ".5", "1/50", "2½", "2 1/2", "½": the pattern of one number without a sign. */
export const NUMBER = String.raw`(?:\d+\s+\d+\/\d+|\d+(?:\.\d+)?\/\d+(?:\.\d+)?|\d*\s*[¼½¾⅓⅔⅛⅜⅝⅞]|\d+(?:[.,]\d+)?|[.,]\d+)`;

const WHOLE_AND_SHARE = /^(\d+)\s+(\d+)\/(\d+)$/;
const SHARE = /^(\d+(?:\.\d+)?)\/(\d+(?:\.\d+)?)$/;
const WITH_VULGAR = /^(\d*)\s*([¼½¾⅓⅔⅛⅜⅝⅞])$/;
/** One and a fifth to some, twelve hundred to others. */
const TWO_MEANINGS = /^[1-9]\d{0,2},\d{3}$/;
const ONE_NUMBER = new RegExp(`^([+-]?)\\s*(${NUMBER})$`);

/**
 * A number as people type it, with either decimal sign, either minus, fractions; null for what is none or could be two,
 * as "1,200".
 */
export function numberFromText(text: string): number | null {
  const found = ONE_NUMBER.exec(withPlainMinus(text).trim());
  if (!found) return null;
  const value = unsigned(found[2]!);
  if (value === null) return null;
  return found[1] === '-' ? 0 - value : value;
}

/** U+2212 and the dashes that keyboards offer, as the hyphen that numbers are written with. */
export function withPlainMinus(text: string): string {
  return text.replace(/[\u2212\u2012\u2013]/g, '-');
}

/** What matches `NUMBER`, as a number; null where it has two meanings or divides by nothing. */
export function unsigned(text: string): number | null {
  if (TWO_MEANINGS.test(text)) return null;
  const both = WHOLE_AND_SHARE.exec(text);
  if (both) return finite(Number(both[1]) + Number(both[2]) / Number(both[3]));
  const share = SHARE.exec(text);
  if (share) return finite(Number(share[1]) / Number(share[2]));
  const vulgar = WITH_VULGAR.exec(text);
  if (vulgar) return Number(vulgar[1]) + VULGAR[vulgar[2]!]!;
  return finite(Number(text.replace(',', '.')));
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** To so many decimals, without the noughts that say nothing, U+2212 for minus, never "−0". */
export function numberText(value: number, decimals: number): string {
  const rounded = Number(value.toFixed(decimals));
  return rounded < 0 ? `\u2212${-rounded}` : String(rounded + 0);
}
