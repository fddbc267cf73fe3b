import { openPanel } from '../shell/shell-state.ts';
import { choose } from '../store/choose.ts';
import type { EditorStore } from '../store/editor-store.ts';
import { documentShown, lampChosen } from '../store/shown-scene.ts';

/** One thing on the page, what it is for, and something to try on it. */
export interface TourStep {
  /** Selects the part of the page that it is about. */
  readonly part: string;
  readonly title: string;
  readonly words: string;
  /** Where the words stand beside it, if there is room. */
  readonly side: 'left' | 'right' | 'top' | 'bottom';
  /** Brings the part into sight. */
  show?(store: EditorStore): void;
}

export const TOUR_STEPS: readonly TourStep[] = [
  {
    part: '.frame-panel',
    title: 'The frame',
    words:
      'What the chosen camera sees, at its exposure and no other. Point into it, or rest a finger on it: under it stands what a spot meter would read there.',
    side: 'right',
  },
  {
    part: '.plan',
    title: 'The plan',
    words:
      'Where things stand, measured. Drag a lamp: the needles below move with it, and frame and figures follow.',
    side: 'left',
  },
  {
    part: '.stop-rule',
    title: 'The stop rule',
    words:
      'Every mark is a needle, in stops from the camera’s zero; the band behind it is its ±. Drag the flag under a needle to the stop that you want there, then let the levels be found.',
    side: 'top',
  },
  {
    part: '.side-panels',
    title: 'What is chosen',
    words:
      'Everything about one thing: here a lamp, its gels and what they cost. Type another height, such as 3 m or 10 ft, and look at the needles.',
    side: 'left',
    show: (store) => {
      openPanel('chosen');
      const state = store.getState();
      const first = documentShown(state)?.lamps?.[0];
      if (!lampChosen(state) && first) choose(store, [first.id]);
    },
  },
  {
    part: '.setups-strip',
    title: 'Setups',
    words:
      'The same set, lit otherwise, in shooting order. Press one: what you change now belongs to it alone. Press Base to come back.',
    side: 'top',
  },
  {
    part: '.side-panels',
    title: 'Glints',
    words:
      'Lamps that mirror white in this frame, and what would take them out of it. Press Try it, see what it costs, and press Undo.',
    side: 'left',
    show: () => openPanel('glints'),
  },
  {
    part: '.top-bar',
    title: 'Yours to keep',
    words:
      'Every step can be undone, and this browser keeps the scene as you work. Save writes it to a file; File has a link to send, and this tour again.',
    side: 'bottom',
  },
];
