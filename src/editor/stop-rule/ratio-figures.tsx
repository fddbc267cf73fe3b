import type { MarkReport, MeterReport } from '../../scene/meter/meter-scene.ts';
import { lampSign } from '../figures/lamp-colour.ts';
import { documentShown } from '../store/shown-scene.ts';
import { useEditor } from '../store/use-editor.ts';
import { type Roles, ratiosAt } from './ratios.ts';
import { ratioWords } from './reading-words.ts';
import { sayRole, useRule } from './rule-state.ts';

const ROLES: readonly { readonly role: keyof Roles; readonly word: string }[] = [
  { role: 'key', word: 'Key' },
  { role: 'fill', word: 'Fill' },
  { role: 'rim', word: 'Rim' },
];

/** key:fill and rim:key at a mark, each with its convention, and which lamp counts as which. */
export function RatioFigures({ report, mark }: { readonly report: MeterReport; readonly mark: MarkReport }) {
  const document = useEditor(documentShown);
  const said = useRule((state) => state.roles.get(mark.id));
  if (!document) return null;
  const { roles, keyToFill, rimToKey, rims } = ratiosAt(report, document, mark, said);
  const nameOf = (id: string) => document.lamps?.find((lamp) => lamp.id === id)?.name ?? id;
  const rimMark = report.marks.find(({ id }) => id === rims.find(({ lamp }) => lamp === roles.rim)?.mark);
  const lamps = mark.lamps.filter(({ illuminance_lx }) => illuminance_lx > 0).map(({ id }) => id);

  return (
    <div className="ratios">
      <dl>
        <dt title="(key + fill) : fill, both at this mark">key:fill</dt>
        <dd>{keyToFill === null ? '–' : ratioWords(keyToFill)}</dd>
        <dt title="rim : key, the rim with the meter held to it">rim:key</dt>
        <dd>{rimToKey === null ? '–' : ratioWords(rimToKey)}</dd>
      </dl>
      <div className="ratio-roles">
        {ROLES.map(({ role, word }) => (
          <label key={role}>
            <span>{word}</span>
            <select
              value={roles[role] ?? ''}
              onChange={({ target }) => sayRole(mark.id, role, target.value || null)}
            >
              <option value="">none</option>
              {(role === 'rim' ? rims.map(({ lamp }) => lamp) : lamps).map((id) => (
                <option key={id} value={id}>
                  {lampSign(document, id).initial} · {nameOf(id)}
                </option>
              ))}
            </select>
          </label>
        ))}
      </div>
      <p className="quiet">
        key:fill is (key + fill) : fill, both read here.{' '}
        {rimMark ? (
          <>
            rim:key is the rim at <bdi>{rimMark.name}</bdi>, the meter held to the lamp, against the key here.
          </>
        ) : (
          'For rim:key add a mark beside this one that faces the rim lamp.'
        )}
      </p>
    </div>
  );
}
