import { type ComponentType, lazy, Suspense } from 'react';

export interface AnswerPanelEntry {
  readonly id: string;
  readonly name: string;
  readonly Component: ComponentType;
}

/** The sheets' words are loaded when first needed. */
const components = () => import('./panel-components.ts');

type PanelName = keyof Awaited<ReturnType<typeof components>>;

function panel(id: string, name: string, component: PanelName): AnswerPanelEntry {
  const Panel = lazy(async () => ({ default: (await components())[component] }));
  // Made once for each panel, while the module is loaded.
  // biome-ignore lint/correctness/noComponentHookFactories: never called while something renders
  const Component = () => (
    <Suspense fallback={<p className="quiet">Opening {name}…</p>}>
      <Panel />
    </Suspense>
  );
  return { id, name, Component };
}

/** Every panel of answers, in the order in which the work asks for them. */
export const ANSWER_PANELS: readonly AnswerPanelEntry[] = [
  panel('glints', 'Glints', 'Glints'),
  panel('separation', 'Separation', 'Separation'),
  panel('lens', 'Lens and shutter', 'Lens'),
  panel('walk', 'Walk', 'Walk'),
  panel('power', 'Power', 'Power'),
  panel('stands', 'Stands in wind', 'Stands'),
  panel('night-sky', 'Night sky', 'NightSky'),
  panel('meter-back', 'Meter back', 'MeterBack'),
];
