import { Popover } from 'radix-ui';
import { useEffect, useId, useRef, useState } from 'react';
import { useDocuments } from '../documents/use-documents.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import '../styles/tour.css';
import { endTour, startTourOnce, tourStore, useTour } from './tour-state.ts';
import { TOUR_STEPS } from './tour-steps.ts';

/** A minute on the demo, part by part. The page stays in use all the while: what the words suggest can be tried. */
export function Tour() {
  const store = useEditorStore();
  const at = useTour((state) => state.step);
  useFirstVisit();
  const [part, setPart] = useState<Element | null>(null);
  useEffect(() => {
    const step = at === null ? undefined : TOUR_STEPS[at];
    step?.show?.(store);
    const found = step ? document.querySelector(step.part) : null;
    found?.setAttribute('data-toured', '');
    setPart(found);
    return () => found?.removeAttribute('data-toured');
  }, [at, store]);
  if (at === null || !part) return null;
  return <Words key={at} at={at} part={part} />;
}

/** On the demo as it was delivered, when its first numbers are there; not on a scene that someone has opened or been sent. */
function useFirstVisit(): void {
  const delivered = useDocuments((state) => state.shown?.delivered === true);
  const read = useEditor((state) => state.reading !== null);
  const ready = delivered && read;
  useEffect(() => {
    if (ready) startTourOnce();
  }, [ready]);
}

function Words({ at, part }: { readonly at: number; readonly part: Element }) {
  const { title, words, side } = TOUR_STEPS[at]!;
  const last = at === TOUR_STEPS.length - 1;
  const titleId = useId();
  const wordsId = useId();
  const go = (step: number) => tourStore.setState({ step });
  const next = useRef<HTMLButtonElement>(null);
  const stay = (event: Event) => event.preventDefault();
  return (
    <Popover.Root open onOpenChange={(open) => !open && endTour()}>
      <Popover.Anchor virtualRef={{ current: part }} />
      <Popover.Portal>
        <Popover.Content
          className="tour"
          side={side}
          sideOffset={10}
          collisionPadding={10}
          aria-labelledby={titleId}
          aria-describedby={wordsId}
          onInteractOutside={stay}
          onOpenAutoFocus={(event) => {
            event.preventDefault();
            next.current?.focus();
          }}
        >
          <h2 id={titleId}>
            {title} <span className="quiet">{`${at + 1} of ${TOUR_STEPS.length}`}</span>
          </h2>
          <p id={wordsId}>{words}</p>
          <div className="tour-buttons">
            {!last && (
              <button type="button" onClick={endTour}>
                Leave off
              </button>
            )}
            {at > 0 && (
              <button type="button" onClick={() => go(at - 1)}>
                Back
              </button>
            )}
            <button
              ref={next}
              type="button"
              className="chief"
              onClick={() => (last ? endTour() : go(at + 1))}
            >
              {last ? 'Done' : 'Next'}
            </button>
          </div>
          <Popover.Arrow className="tour-arrow" width={18} height={9} />
        </Popover.Content>
      </Popover.Portal>
    </Popover.Root>
  );
}
