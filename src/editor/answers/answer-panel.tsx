import { type ReactNode, useId } from 'react';
import { CAUTIONS, PLANNING_AID } from '../../paperwork/cautions.ts';
import { unbroken } from '../figures/unbroken.ts';
import { ProblemList } from '../panels/problem-list.tsx';
import type { AnswerKind } from '../worker/answer-kinds.ts';
import type { AnswerFreshness } from './asking.ts';
import { Cautions } from './cautions.tsx';
import { type AnswerInUse, useAnswers, useAnswersKeeper } from './use-answers.ts';
import '../styles/answers.css';

interface AnswerPanelProps<K extends AnswerKind> {
  readonly name: string;
  readonly kind: K;
  readonly inUse: AnswerInUse<K>;
  /** What the answer goes by: setup, camera, and the like. */
  readonly heading?: string | undefined;
  /** What the scene lacks for the question to make sense, and what to do about it; null where it lacks nothing. */
  readonly lacking: string | null;
  /** What can be set about the question. */
  readonly settings?: ReactNode;
  readonly cautions?: readonly string[] | undefined;
  /** Conventions and limits; cautions among them are left to `cautions`. */
  readonly conventions?: readonly string[] | undefined;
  /** What is being done while there is more to come. */
  readonly moreToCome?: string;
  readonly children?: ReactNode;
}

/** The frame of every panel of answers: what is asked, how fresh the answer is, its conventions and cautions. */
export function AnswerPanel<K extends AnswerKind>(props: AnswerPanelProps<K>) {
  const { name, kind, inUse, heading, lacking, settings, cautions = [], conventions = [], children } = props;
  const { shown, freshness } = inUse;
  const title = useId();
  return (
    <section className="answer" aria-labelledby={title} data-answer={kind} data-state={freshness}>
      <header className="answer-head">
        <h2 id={title}>{name}</h2>
        <p className="quiet answer-heading">
          <bdi>{heading && unbroken(heading)}</bdi>
        </p>
        <p className="answer-freshness">{lacking === null && wordsOf(freshness, props.moreToCome)}</p>
      </header>
      {lacking !== null ? (
        <p className="note">{lacking}</p>
      ) : (
        <>
          {settings}
          <Working kind={kind} />
          {shown && shown.problems.length > 0 && (
            <div className="note">
              <p>This cannot be answered for the scene as it stands.</p>
              <ProblemList problems={shown.problems} />
            </div>
          )}
          <div className="answer-body" aria-busy={freshness !== 'fresh'}>
            {children}
          </div>
        </>
      )}
      <Cautions sentences={cautions} />
      <Conventions sentences={lacking === null ? conventions : []} />
    </section>
  );
}

function wordsOf(freshness: AnswerFreshness, moreToCome = 'more to come…'): string {
  switch (freshness) {
    case 'missing':
      return 'working it out…';
    case 'stale':
      return 'of the scene as it was';
    case 'partial':
      return moreToCome;
    case 'fresh':
      return '';
  }
}

/** How far it is, a way to stop it, and what stopped it. */
function Working({ kind }: { readonly kind: AnswerKind }) {
  const keeper = useAnswersKeeper();
  const share = useAnswers(({ working }) => (working?.to.kind === kind ? working.share : null));
  const calledOff = useAnswers((state) => state.calledOff.some((one) => one.kind === kind));
  const failure = useAnswers((state) => state.failure);
  if (failure !== null)
    return (
      <div className="note" role="alert">
        <p>
          Working it out stopped (<bdi>{failure}</bdi>). What is shown is not the last word.
        </p>
        <button type="button" onClick={() => keeper.askAgain()}>
          Start again
        </button>
      </div>
    );
  if (share !== null)
    return (
      <div className="answer-working">
        <progress value={share} max={1} aria-label="How far it is" />
        <button type="button" onClick={() => keeper.callOff()}>
          Stop
        </button>
      </div>
    );
  if (calledOff)
    return (
      <div className="note">
        <p>Stopped before it was done.</p>
        <button type="button" onClick={() => keeper.askAgain()}>
          Work it out
        </button>
      </div>
    );
  return null;
}

const ALL_CAUTIONS: ReadonlySet<string> = new Set([PLANNING_AID, ...Object.values(CAUTIONS).flat()]);

function Conventions({ sentences }: { readonly sentences: readonly string[] }) {
  const own = sentences.filter((sentence) => !ALL_CAUTIONS.has(sentence));
  if (own.length === 0) return null;
  return (
    <details className="answer-conventions">
      <summary>How this is reckoned, and its limits</summary>
      <ul>
        {own.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </details>
  );
}
