import { freshId, numberedName, takenIds } from './fresh-names.ts';
import type { Made, Surroundings } from './recipe.ts';

/** A setup that begins as what is shown: the base, or a copy of the setup that is looked at. */
export function makeSetup({ document, setup }: Surroundings): Made {
  const shown = document.setups?.find(({ id }) => id === setup);
  const name = numberedName(document, 'Setup');
  const thing = { id: freshId(takenIds(document), name), name, changes: shown?.changes ?? {} };
  return { commands: [{ do: 'add', to: 'setups', thing }], chosen: [thing.id], step: `Add ${name}` };
}
