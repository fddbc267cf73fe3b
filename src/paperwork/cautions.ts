/** What a sheet warns of, by topic: plain sentences to print as they stand. */
export type CautionTopic =
  | 'electrical'
  | 'generators'
  | 'batteries'
  | 'stands'
  | 'heat'
  | 'haze'
  | 'roads-and-edges'
  | 'eyes'
  | 'people';

/** On every sheet. */
export const PLANNING_AID =
  'Planning aid only. Local codes, venue rules, makers’ instructions and qualified people override every figure.';

export const CAUTIONS: Readonly<Record<CautionTopic, readonly string[]>> = {
  electrical: [
    'Electricity: distribution, tie-ins and earthing are work for a qualified person. Outdoors everything runs behind residual-current protection (RCD, GFCI), tested before the load goes on.',
    'Connectors rated for wet, up off the ground; reels run out in full; cable covered where people walk. What a cable carries without overheating is not judged here.',
    'Discharge ballasts strike with thousands of volts: isolate, wait, then open.',
  ],
  generators: [
    'Generators: in the open, exhaust downwind of people, cabins and air intakes, because carbon monoxide kills unnoticed. Stop and cool before refuelling; extinguisher at hand; earth it as the local rule says.',
  ],
  batteries: [
    'Batteries: charge attended, keep dry, put nothing swollen or dropped to use, and carry them as transport rules say.',
  ],
  stands: [
    'Stands: a screen for one lamp on level, firm ground, without any safety factor. Column, cables, flags and frames catch wind too and are not counted; gusts push harder than their speed says.',
    'Spread the legs fully, one of them under the load; ballast low; safety bonds; a clear circle as wide as the stand is high. Lower or strip it before the wind comes. Look up for overhead lines.',
  ],
  heat: [
    'Heat and UV: no discharge head without its whole UV glass and a working interlock. Keep heads clear of glass, cloth and fluid; let them cool before they are moved; gels burn.',
  ],
  haze: [
    'Haze: read the fluid’s data sheet. Air the inside of vehicles, ask about asthma, mind wet floors and drivers’ sight, and tell whoever answers the fire alarm.',
  ],
  'roads-and-edges': [
    'Roads, tracks and water: take every track, line and conductor as live and every lane as used. An authorised lookout; nobody and nothing past the edge; no lamp that dazzles or could pass for a signal; cable crossings watched.',
  ],
  eyes: [
    'Eyes: call before striking, never look into a spotted lamp or its mirror image, and leave a dim light on the way: eyes used to the dark trip.',
  ],
  people: [
    'People: nights are long and cold and nobody works alone. Keep a way open for an ambulance, and agree beforehand on the weather that stops work.',
  ],
};

/** The cautions of a sheet: that it is a planning aid, then its topics in order. */
export function cautionsFor(...topics: readonly CautionTopic[]): string[] {
  return [PLANNING_AID, ...topics.flatMap((topic) => CAUTIONS[topic])];
}
