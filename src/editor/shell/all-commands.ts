import { answerActions } from '../answers/answer-actions.ts';
import { buildingActions } from '../building/building-actions.ts';
import { documentActions } from '../documents/document-actions.ts';
import { frameActions } from '../frame/frame-actions.ts';
import { planActions } from '../plan/plan-actions.ts';
import type { Session } from '../session.ts';
import { setupActions } from '../setups/setup-actions.ts';
import { stopRuleActions } from '../stop-rule/rule-actions.ts';
import { startTour } from '../tour/tour-state.ts';
import { keysInWords } from './keys-in-words.ts';
import { openPanel, shellStore } from './shell-state.ts';

/** Anything that can be done, as the list of commands offers it. */
export interface PageCommand {
  readonly id: string;
  readonly name: string;
  /** As they are written; empty without. */
  readonly keys: string;
  readonly group: string;
  enabled(): boolean;
  run(): void;
}

/** Every command of the page, by where it belongs. */
export function allCommands(session: Session): readonly PageCommand[] {
  const { store } = session;
  const always = () => true;
  const own = (group: string, id: string, name: string, run: () => void, keys = ''): PageCommand => ({
    id,
    name,
    keys,
    group,
    enabled: always,
    run,
  });
  return [
    ...documentActions(session).map((action) => ({ ...action, group: 'Document' })),
    ...[
      ['chosen', 'Show: what is chosen'],
      ['build', 'Show: building'],
      ['lamps', 'Show: lamps'],
      ['readings', 'Show: readings'],
    ].map(([panel, name]) => own('Panels', `panel.${panel}`, name!, () => openPanel(panel!))),
    ...answerActions(store, openPanel).map((action) => ({ ...action, keys: '', group: 'Panels' })),
    ...frameActions(store).map((action) => ({ ...action, keys: '', group: 'Frame' })),
    ...planActions(store).map((action) => ({
      ...action,
      keys: keysInWords(action.keys ?? ''),
      group: 'Plan',
    })),
    ...buildingActions.map(({ id, name, keys, run, enabled }) => ({
      id,
      name,
      keys: keys ?? '',
      group: 'Build',
      enabled: () => enabled(store.getState()),
      run: () => run(store),
    })),
    ...setupActions.map(({ id, name, keys, run, enabled }) => ({
      id,
      name,
      keys: keys ?? '',
      group: 'Setups',
      enabled: () => enabled(store.getState()),
      run: () => run(store),
    })),
    ...stopRuleActions.map(({ id, name, run, enabled }) => ({
      id,
      name,
      keys: '',
      group: 'Stop rule',
      enabled: () => enabled(store.getState()),
      run: () => run(store),
    })),
    own('Page', 'page.keys', 'Keys', () => shellStore.setState({ keySheet: true }), '?'),
    own('Page', 'page.tour', 'Show me round', startTour),
    own('Page', 'page.night', 'Page for the night', () => store.setState({ scheme: 'night' })),
    own('Page', 'page.day', 'Page for the day', () => store.setState({ scheme: 'day' })),
    own('Page', 'page.lux', 'Illuminance in lux', () => store.setState({ unit: 'lx' })),
    own('Page', 'page.foot-candles', 'Illuminance in foot-candles', () => store.setState({ unit: 'fc' })),
    own('Page', 'page.metres', 'Lengths in metres', () => store.setState({ lengths: 'metric' })),
    own('Page', 'page.feet', 'Lengths in feet and inches', () => store.setState({ lengths: 'imperial' })),
  ];
}
