import { keysInWords } from './keys-in-words.ts';

/** Keys that move the focus or a figure where it stands: they need a hand on something, so the list of commands has none of them. */
export interface GuidingKeys {
  readonly keys: string;
  readonly does: string;
}

/** By the group of commands that they belong to. */
export const GUIDING_KEYS: { readonly [group: string]: readonly GuidingKeys[] } = {
  Frame: [
    { keys: '← → ↑ ↓', does: 'Move the spot meter, with Shift ten times as far' },
    { keys: 'Enter', does: 'Choose what the spot meter is on' },
    { keys: 'Escape', does: 'Put the spot meter away' },
  ],
  Plan: [
    { keys: 'Tab', does: 'Go to the next thing; after Escape, leave the drawing' },
    { keys: 'Enter', does: 'Choose it; with Shift, choose it too' },
    { keys: '← → ↑ ↓', does: 'Move what is chosen by 5 cm or 2 in, with Shift ten times as far' },
    { keys: 'Page ↑ ↓', does: 'Raise or lower what is chosen' },
    { keys: 'Alt', does: 'Held while dragging: nothing catches' },
  ],
  'Stop rule': [
    { keys: '← →', does: 'Go along the ruler from mark to mark, Home and End to its ends' },
    { keys: '↑ ↓', does: 'Go from mark to mark as they are listed' },
    { keys: 'Enter', does: 'Go to the flag of the mark' },
    { keys: '← → on a flag', does: 'Want ⅓ stop less or more; Page ↑ ↓ a whole stop' },
    { keys: 'Delete on a flag', does: 'Want nothing there' },
    { keys: 'Shift+click', does: 'On a lamp’s sign above the ruler: that lamp alone' },
  ],
  Setups: [
    { keys: 'Alt+← →', does: 'Shoot this setup earlier or later' },
    { keys: 'F2', does: 'Rename it' },
  ],
  Fields: [
    { keys: 'Enter', does: 'Take what is typed, in any unit: 2.4m, 8ft 2in, 1/50, 5600K' },
    { keys: 'Escape', does: 'Leave it as it was' },
    { keys: '↑ ↓', does: 'One step more or less, with Shift ten' },
  ],
  Page: [{ keys: keysInWords('Mod+k'), does: 'Every command by its name' }],
};
