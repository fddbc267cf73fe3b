import { createContext, type ReactNode, useContext, useMemo, useState } from 'react';
import { choose } from '../store/choose.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { subjectsIn } from './desk.tsx';

/** The step from one thing to another that it names. */
interface TrailStep {
  readonly from: readonly string[];
  readonly to: string;
}

interface Trail {
  readonly step: TrailStep | null;
  take(step: TrailStep): void;
}

const TrailContext = createContext<Trail>({ step: null, take: () => {} });

export function TrailProvider({ children }: { readonly children: ReactNode }) {
  const [step, take] = useState<TrailStep | null>(null);
  const trail = useMemo(() => ({ step, take }), [step]);
  return <TrailContext.Provider value={trail}>{children}</TrailContext.Provider>;
}

/** Goes from what is chosen to a thing that it names, and remembers from where. */
export function useOpenThing(): (id: string) => void {
  const store = useEditorStore();
  const { take } = useContext(TrailContext);
  return (id) => {
    take({ from: store.getState().chosen, to: id });
    choose(store, [id]);
  };
}

/** The way back to the thing that named this one. */
export function TrailBack({ ids }: { readonly ids: readonly string[] }) {
  const store = useEditorStore();
  const { step } = useContext(TrailContext);
  const back = step !== null && ids.length === 1 && ids[0] === step.to ? step.from : null;
  const name = useEditor((state) => {
    const document = documentShown(state);
    const thing = document && back && subjectsIn(document, back).at(-1);
    return thing ? ((thing.thing as { name?: string }).name ?? thing.id) : null;
  });
  if (!back || name === null) return null;
  return (
    <>
      <span aria-hidden="true">›</span>
      <button type="button" className="trail-step" onClick={() => choose(store, back)}>
        <bdi>{name}</bdi>
      </button>
    </>
  );
}
