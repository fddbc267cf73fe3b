import { useEffect, useState } from 'react';
import { balanceSheet } from '../../paperwork/balance-sheet.ts';
import type { BalanceReport } from '../../scene/balance/balance-scene.ts';
import { namesOfThings } from '../answers/names-of-things.ts';
import { ProblemList } from '../panels/problem-list.tsx';
import { focusPanelOf } from '../shell/focus-panel.ts';
import { choose } from '../store/choose.ts';
import { documentShown, setupShown } from '../store/shown-scene.ts';
import { useEditor, useEditorStore } from '../store/use-editor.ts';
import { acceptLevels, findLevels, giveUp, wantsOf } from './find-levels.ts';
import { stopsWords } from './reading-words.ts';
import { type AskedOf, isOf, useRule, want } from './rule-state.ts';

/** What is wanted at which mark, and the levels that bring it about: asked for, looked at, taken or not. */
export function WantedList() {
  const store = useEditorStore();
  const wants = useRule((state) => state.wants);
  const balance = useRule((state) => state.balance);
  const marks = useEditor((state) => state.scene?.document.marks);
  const setup = useEditor(setupShown);
  const wanted = wantsOf(store.getState(), wants);

  if (wanted.length === 0) {
    return (
      <p className="quiet">
        Nothing is wanted yet. Choose a mark and drag the flag under its needle to the stop that you want
        there (or focus it and use the arrow keys). Levels of the lamps that are on are then worked out for
        all flags at once.
      </p>
    );
  }
  return (
    <div className="wanted" data-testid="wanted">
      <ul className="wanted-list" aria-label="Wanted">
        {wanted.map(({ mark, stops }) => {
          const name = marks?.find(({ id }) => id === mark)?.name ?? mark;
          return (
            <li key={mark}>
              <button type="button" className="part-name" onClick={() => choose(store, [mark])}>
                <bdi>{name}</bdi>
              </button>
              <strong>{stopsWords(stops)}</strong>
              <button
                type="button"
                aria-label={`Clear what is wanted at ${name}`}
                onClick={() => want(mark, null)}
              >
                Clear
              </button>
            </li>
          );
        })}
      </ul>
      {balance.kind === 'none' && (
        <button type="button" className="chief" onClick={() => void findLevels(store)}>
          Find levels{setup === undefined ? '' : ' for this setup'}
        </button>
      )}
      {balance.kind === 'working' && <Working since_ms={balance.since_ms} />}
      {balance.kind === 'failed' && (
        <div className="note" role="alert">
          <p>{balance.message === null ? 'This cannot be had:' : `It stopped (${balance.message}).`}</p>
          <ProblemList problems={balance.problems} />
          <button type="button" onClick={() => giveUp()}>
            Put away
          </button>
        </div>
      )}
      {balance.kind === 'proposed' && <Proposal report={balance.report} asked={balance.asked} />}
    </div>
  );
}

function Working({ since_ms }: { readonly since_ms: number }) {
  const [now_ms, setNow] = useState(since_ms);
  useEffect(() => {
    const timer = setInterval(() => setNow(performance.now()), 500);
    return () => clearInterval(timer);
  }, []);
  return (
    <p className="working" role="status">
      <progress aria-label="Finding levels" />
      <span>
        finding levels, <span aria-hidden="true">{Math.floor((now_ms - since_ms) / 1000)} s</span>
      </span>
      <button type="button" onClick={() => giveUp()}>
        Leave off
      </button>
    </p>
  );
}

function Proposal({ report, asked }: { readonly report: BalanceReport; readonly asked: AskedOf }) {
  const store = useEditorStore();
  const wants = useRule((state) => state.wants);
  const document = useEditor(documentShown);
  const current = useEditor((state) => isOf(asked, state, wants));
  if (!document) return null;
  const { tables, findings, footer } = balanceSheet(report, namesOfThings(document));
  const changed = report.lamps.some(({ level, level_now }) => level !== level_now);

  return (
    <div className={`proposal ${current ? '' : 'past'}`} data-testid="proposal">
      <p role="status">
        {!current
          ? 'The scene or the flags have changed since. Ask again.'
          : report.reached
            ? changed
              ? 'These levels do it:'
              : 'It is so already.'
            : 'Not all of it can be had. Nearest by level:'}
      </p>
      <div className="proposal-buttons">
        {current ? (
          <button
            type="button"
            className="chief"
            disabled={!changed}
            onClick={({ currentTarget }) => {
              focusPanelOf(currentTarget);
              acceptLevels(store);
            }}
          >
            Take these levels
          </button>
        ) : (
          <button type="button" className="chief" onClick={() => void findLevels(store)}>
            Find levels again
          </button>
        )}
        <button
          type="button"
          onClick={({ currentTarget }) => {
            focusPanelOf(currentTarget);
            giveUp();
          }}
        >
          Leave as is
        </button>
      </div>
      {findings.length > 0 && (
        <ul className="findings">
          {findings.map((sentence) => (
            <li key={sentence} className={sentence.startsWith(' ') ? 'under' : undefined}>
              {sentence.trim()}
            </li>
          ))}
        </ul>
      )}
      {tables.map(({ leftColumns, rows: [head, ...rows] }) => (
        <div className="table-scroll" key={head?.join()}>
          <table className="proposal-table">
            <thead>
              <tr>
                {head?.map((word, i) => (
                  <th key={word} scope="col" className={i < leftColumns ? undefined : 'figure'}>
                    {word}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.join()}>
                  {row.map((cell, i) => (
                    <td key={head?.[i]} className={i < leftColumns ? undefined : 'figure'}>
                      <bdi>{cell}</bdi>
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      ))}
      <p className="quiet">{footer.join(' ')}</p>
    </div>
  );
}
