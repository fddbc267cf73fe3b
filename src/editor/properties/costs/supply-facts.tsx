import { CAUTIONS } from '../../../paperwork/cautions.ts';
import { entryNamed, LIBRARY } from '../../../scene/library/library.ts';
import { lampLoads } from '../../../scene/power/lamp-load.ts';
import { POWER_DEFAULTS } from '../../../scene/power/power-scene.ts';
import { supplyReport } from '../../../scene/power/supply-report.ts';
import type { SceneDocument } from '../../../scene/schema/document.ts';
import type { Supply } from '../../../scene/schema/supply.ts';
import { documentShown } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { Caution, Fact, Facts } from './facts.tsx';

const CAUTION_OF_KIND = {
  mains: CAUTIONS.electrical[0],
  generator: CAUTIONS.generators[0],
  battery: CAUTIONS.batteries[0],
};

/** What hangs on a supply, and whether it carries it. */
export function SupplyFacts({ id }: FactsProps) {
  const supply = useThing<Supply>(id);
  const document = useEditor(documentShown);
  if (!supply || !document) return null;
  const report = reportOf(document, supply);
  const { current_A, limit_A, load_W, over, drop_percent, dropOver, lamps, battery } = report;
  return (
    <>
      <Facts>
        <Fact name="Carries" note={report.phases ? 'the fullest phase' : undefined}>
          {current_A.toFixed(1)} A{limit_A === null ? '' : ` of ${limit_A.toFixed(1)} A for hours`},{' '}
          {Math.round(load_W)} W, {lamps.length === 1 ? '1 lamp' : `${lamps.length} lamps`} on
        </Fact>
        {drop_percent !== null && (
          <Fact name="Lost in cable" note={dropOver ? 'more than lamps like' : undefined}>
            {drop_percent.toFixed(1)} %
          </Fact>
        )}
        {battery && battery.hours !== null && (
          <Fact name="Lasts" note={`${battery.cold_hours?.toFixed(1)} h in the cold`}>
            {battery.hours.toFixed(1)} h
          </Fact>
        )}
      </Facts>
      {over && <Caution>More than it carries for hours.</Caution>}
      <Caution>{CAUTION_OF_KIND[supply.kind]}</Caution>
    </>
  );
}

function reportOf(document: SceneDocument, supply: Supply) {
  const lamps = document.lamps ?? [];
  const heads = new Map(
    lamps.flatMap(({ head }) => {
      const entry = entryNamed(document.heads, LIBRARY.heads, head);
      return entry ? [[head, entry] as const] : [];
    }),
  );
  const kit = { heads, levels: new Map(lamps.map((lamp) => [lamp.id, lamp.level ?? 1])) };
  return supplyReport(supply, lampLoads(document), kit, POWER_DEFAULTS);
}
